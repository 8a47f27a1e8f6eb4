import { loopbackNames } from "../access/loopback.ts";
import type { Bench } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";

/**
 * Answers only under names of its own. A page elsewhere may have its own name lead to this machine's loopback
 * address and then counts as the same site; the Host header still carries that name.
 */
export function refuseForeignHosts(bench: Bench, allowedHosts: readonly string[]): void {
  const allowed = new Set([...loopbackNames, ...allowedHosts.map((host) => host.toLowerCase())]);
  bench.addHook("onRequest", async (request) => {
    const name = hostName(request.headers.host);
    if (name === null || !allowed.has(name)) throw new Refusal("hostRefused");
  });
}

/** The name in a Host header without its port; null where there is none. */
export function hostName(host: string | undefined): string | null {
  const match = /^(\[[0-9a-f:.]+\]|[^:[\]/?#@\s]+)(?::\d{1,5})?$/i.exec(host ?? "");
  return match ? match[1]!.toLowerCase() : null;
}
