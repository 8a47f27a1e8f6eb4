import type { Bench } from "./bench.ts";

/**
 * One line a request: the route's pattern and ids, never an address with a search in it, never a body. Reading is
 * told at debug level only.
 */
export function logRequests(bench: Bench): void {
  bench.addHook("onResponse", async (request, reply) => {
    const { personId, stomaId } = (request.params ?? {}) as { personId?: string; stomaId?: string };
    const line = {
      requestId: request.id,
      method: request.method,
      route: request.routeOptions.url ?? "none",
      personId: asId(personId),
      stomaId: asId(stomaId),
      accountId: request.signedIn?.account.accountId,
      sessionId: request.signedIn?.sessionId,
      status: reply.statusCode,
      ms: Math.round(reply.elapsedTime),
    };
    if (request.method === "GET" || request.method === "HEAD") request.log.debug(line, "read");
    else request.log.info(line, "write");
  });
}

/** Whatever else stood in the address in an id's place stays out. */
function asId(text: string | undefined): string | undefined {
  return text !== undefined && /^[0-9a-f-]{36}$/i.test(text) ? text : undefined;
}
