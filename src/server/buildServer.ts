import { constants } from "node:zlib";
import compress from "@fastify/compress";
import multipart from "@fastify/multipart";
import swagger from "@fastify/swagger";
import type { FastifySchema } from "fastify";
import { jsonSchemaTransform } from "fastify-type-provider-zod";
import { programVersion } from "../record/programVersion.ts";
import type { Bench, ServedRecord } from "./bench.ts";
import { Clinic } from "./clinic.ts";
import { FitsInBackground } from "./fitsInBackground.ts";
import { type ListenerOptions, listener } from "./listener.ts";
import { servePages } from "./pages.ts";
import { allRoutes } from "./routes/index.ts";
import { errorSchema } from "./schemas.ts";
import { Turns } from "./turns.ts";

export interface BenchOptions extends ListenerOptions {
  record: ServedRecord;
  /** Folder of the built pages; null answers the interface alone. */
  webDir: string | null;
  /** Whether whoever asks from this very machine is signed in with the demo's account; never through a proxy. */
  demoSignIn?: boolean;
}

/** A log of a hundred thousand changes with notes. */
const fileLimit = 25 * 1024 * 1024;

/** The bench's server, not yet listening. The record stays the caller's to close. */
export function buildServer({ record, webDir, demoSignIn = false, ...options }: BenchOptions): Bench {
  const { now = Date.now, publicUrl = null } = options;
  const { server: bench, cookies } = listener("bench", record, options);
  bench.register(compress, {
    globalDecompression: false,
    brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } },
  });
  bench.register(multipart, {
    limits: { fileSize: fileLimit, files: 1, fields: 4, fieldSize: 200, parts: 5 },
  });
  bench.register(swagger, {
    openapi: { info: { title: "Roundel", version: programVersion } },
    transform: (route) => jsonSchemaTransform({ ...route, schema: withErrors(route.schema) }),
  });

  const { store, accounts, belonging, audit, erasure, photos } = record;
  const clinic = new Clinic(store);
  const fits = new FitsInBackground(store, clinic, bench.log);
  const turns = new Turns();
  const workings = {
    store,
    accounts,
    belonging,
    audit,
    erasure,
    photos,
    now,
    cookies,
    publicUrl,
    demoSignIn: demoSignIn && !options.behindProxy,
    clinic,
    fits,
    turns,
  };
  bench.addHook("onClose", () => fits.close());
  servePages(bench, webDir);
  bench.register(async (routes) => allRoutes(routes as Bench, workings));
  return bench;
}

/** Every route may answer with an error instead of what it is for. */
function withErrors(schema: FastifySchema): FastifySchema {
  const { response = {} } = schema as { response?: Record<string, unknown> };
  return { ...schema, response: { ...response, default: errorSchema } };
}
