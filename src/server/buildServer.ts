import { randomUUID } from "node:crypto";
import { constants } from "node:zlib";
import compress from "@fastify/compress";
import multipart from "@fastify/multipart";
import rateLimit from "@fastify/rate-limit";
import swagger from "@fastify/swagger";
import {
  type FastifyBaseLogger,
  type FastifyReply,
  type FastifySchema,
  type FastifySchemaCompiler,
  fastify,
  LogController,
} from "fastify";
import { jsonSchemaTransform, type ZodTypeProvider } from "fastify-type-provider-zod";
import { type Logger, pino } from "pino";
import type { z } from "zod";
import { faultsOf } from "../domain/fault.ts";
import { programVersion } from "../record/programVersion.ts";
import type { RecordStore } from "../record/store/index.ts";
import type { Bench } from "./bench.ts";
import { Clinic } from "./clinic.ts";
import { Refusal } from "./errors/refusal.ts";
import { answerErrors, bodyOf } from "./errors/reply.ts";
import { FitsInBackground } from "./fitsInBackground.ts";
import { refuseForeignHosts } from "./guard/host.ts";
import { refuseForeignWrites } from "./guard/origin.ts";
import { setHeaders } from "./headers.ts";
import { servePages } from "./pages.ts";
import { logRequests } from "./requestLog.ts";
import { allRoutes } from "./routes/index.ts";
import { errorSchema } from "./schemas.ts";
import { Turns } from "./turns.ts";

export interface BenchOptions {
  store: RecordStore;
  /** Folder of the built pages; null answers the interface alone. */
  webDir: string | null;
  /** Silent unless given. */
  log?: Logger;
  now?: () => number;
  /** Names besides loopback under which the bench may be asked, without a port. */
  allowedHosts?: readonly string[];
}

/** A request that is no upload. */
const bodyLimit = 256 * 1024;
/** A log of a hundred thousand changes with notes. */
const fileLimit = 25 * 1024 * 1024;
const requestsAMinute = 1200;

/** The bench's server, not yet listening. The store stays the caller's to close. */
export function buildServer({
  store,
  webDir,
  log = pino({ level: "silent" }),
  now = Date.now,
  allowedHosts = [],
}: BenchOptions): Bench {
  const bench: Bench = fastify({
    loggerInstance: log as FastifyBaseLogger,
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit,
    forceCloseConnections: "idle",
    genReqId: () => randomUUID(),
    frameworkErrors: (_error, _request, reply: FastifyReply) => {
      const refusal = new Refusal("badRequest");
      reply.code(refusal.status).send(bodyOf(refusal));
    },
  }).withTypeProvider<ZodTypeProvider>();
  bench.removeContentTypeParser("text/plain");
  bench.setValidatorCompiler(refuseByZod);
  bench.setSerializerCompiler(() => (data) => JSON.stringify(data));
  answerErrors(bench);

  refuseForeignHosts(bench, allowedHosts);
  refuseForeignWrites(bench);
  setHeaders(bench);
  logRequests(bench);
  bench.register(rateLimit, {
    max: requestsAMinute,
    timeWindow: "1 minute",
    errorResponseBuilder: () => new Refusal("tooManyRequests"),
  });
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

  const clinic = new Clinic(store);
  const fits = new FitsInBackground(store, clinic, bench.log);
  bench.addHook("onClose", () => fits.close());
  servePages(bench, webDir);
  bench.register(async (routes) =>
    allRoutes(routes as Bench, { store, now, clinic, fits, turns: new Turns() }),
  );
  return bench;
}

/** Every route may answer with an error instead. */
function withErrors(schema: FastifySchema): FastifySchema {
  return { ...schema, response: { default: errorSchema } };
}

/** Refuses what a schema does not take, with every fault. */
const refuseByZod: FastifySchemaCompiler<z.ZodType> =
  ({ schema }) =>
  (data) => {
    const read = schema.safeParse(data);
    return read.success
      ? { value: read.data }
      : { error: new Refusal("refused", { faults: faultsOf(read.error, data) }) };
  };
