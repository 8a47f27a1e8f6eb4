import { randomUUID } from "node:crypto";
import rateLimit from "@fastify/rate-limit";
import {
  type FastifyBaseLogger,
  type FastifyReply,
  type FastifySchemaCompiler,
  fastify,
  LogController,
} from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { type Logger, pino } from "pino";
import type { z } from "zod";
import { faultsOf } from "../domain/fault.ts";
import type { Listener } from "../record/accounts/index.ts";
import type { OpenRecord } from "../record/open/index.ts";
import { Cookies, guardRoutes, networkOf } from "./access/index.ts";
import { auditRequests } from "./audit/index.ts";
import type { Bench } from "./bench.ts";
import { Refusal } from "./errors/refusal.ts";
import { answerErrors, bodyOf } from "./errors/reply.ts";
import { refuseForeignHosts } from "./guard/host.ts";
import { refuseForeignWrites } from "./guard/origin.ts";
import { refuseAllButProxy } from "./guard/proxy.ts";
import { setHeaders } from "./headers.ts";
import { logRequests } from "./requestLog.ts";

/** How one listener is reached. */
export interface Reach {
  /** Names besides loopback under which it may be asked, without a port. */
  allowedHosts?: readonly string[];
  /** Where browsers find it, where that is another address than it listens on. */
  publicUrl?: URL | null;
  /** A certificate and its key: it answers https itself. */
  tls?: Tls | null;
  /** The address of the one reverse proxy whose word about the sender is believed. */
  behindProxy?: string | null;
}

export interface Tls {
  cert: Buffer;
  key: Buffer;
}

export interface ListenerOptions extends Reach {
  /** Silent unless given. */
  log?: Logger;
  now?: () => number;
}

/** A request that is no upload. */
const bodyLimit = 256 * 1024;
const requestsAMinute = 1200;

/**
 * A server without routes, guarded in every way that the bench and the home log share: names, origins, headers,
 * sessions and rules, the audit trail, limits, errors, the log.
 */
export function listener(
  which: Listener,
  record: Pick<OpenRecord, "store" | "accounts" | "belonging" | "audit">,
  {
    log = pino({ level: "silent" }),
    now = Date.now,
    allowedHosts = [],
    publicUrl = null,
    tls = null,
    behindProxy = null,
  }: ListenerOptions,
): { server: Bench; cookies: Cookies } {
  const isHttps = tls !== null || publicUrl?.protocol === "https:";
  const server: Bench = fastify({
    ...(tls ? { https: { ...tls, minVersion: "TLSv1.2" } } : {}),
    trustProxy: behindProxy ?? false,
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
  server.removeContentTypeParser("text/plain");
  server.setValidatorCompiler(refuseByZod);
  server.setSerializerCompiler(() => (data) => JSON.stringify(data));
  answerErrors(server);

  const cookies = new Cookies(which, isHttps);
  if (behindProxy !== null) refuseAllButProxy(server, behindProxy);
  refuseForeignHosts(server, publicUrl ? [...allowedHosts, publicUrl.hostname] : allowedHosts);
  refuseForeignWrites(server, publicUrl);
  setHeaders(server, isHttps);
  logRequests(server);
  guardRoutes(server, { listener: which, record, cookies, now });
  auditRequests(server, { listener: which, record, now });
  server.register(rateLimit, {
    max: requestsAMinute,
    timeWindow: "1 minute",
    keyGenerator: ({ signedIn, ip }) => signedIn?.sessionId ?? networkOf(ip),
    errorResponseBuilder: () => new Refusal("tooManyRequests"),
  });
  return { server, cookies };
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
