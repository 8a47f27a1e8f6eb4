import { isLoopback, plainAddress } from "../access/loopback.ts";
import type { Bench } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";

/**
 * Answers the proxy and this machine alone: whoever came past the proxy would come without its https, and could write
 * any sender into the headers that only the proxy may write.
 */
export function refuseAllButProxy(bench: Bench, proxy: string): void {
  bench.addHook("onRequest", async ({ raw }) => {
    const { remoteAddress } = raw.socket;
    if (isLoopback(remoteAddress) || plainAddress(remoteAddress) === plainAddress(proxy)) return;
    throw new Refusal("hostRefused");
  });
}
