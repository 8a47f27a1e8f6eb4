import type { OpenRecord } from "../../record/open/index.ts";
import type { Bench } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { bodyOf } from "../errors/reply.ts";
import { type ListenerOptions, listener } from "../listener.ts";
import { homeRoutes } from "./routes.ts";

export interface HomeOptions extends ListenerOptions {
  record: Pick<OpenRecord, "store" | "accounts" | "belonging" | "audit">;
}

/**
 * The home log's server, not yet listening: an origin of its own, with routes of its own. Nothing of the bench is
 * reachable through it, so that opening it to the world opens nothing else.
 */
export function buildHome({ record, ...options }: HomeOptions): Bench {
  const { server, cookies } = listener("home", record, options);
  server.setNotFoundHandler((_request, reply) => {
    const refusal = new Refusal("notFound");
    reply.code(refusal.status).send(bodyOf(refusal));
  });
  server.register(async (routes) => homeRoutes(routes as Bench, { record, cookies }));
  return server;
}
