import { isIP } from "node:net";
import { isLoopback } from "./access/index.ts";
import type { Reach } from "./listener.ts";

/** A way of being reached that would send people's records over a network for anyone to read; the message says what to do. */
export class UnsafeReach extends Error {
  constructor(message: string) {
    super(message);
    this.name = "UnsafeReach";
  }
}

export interface Guarding extends Reach {
  host: string;
  /** Plain http over a network was asked for in so many words. */
  insecureHttp?: boolean;
}

/**
 * Refuses addresses that are neither on this machine alone, nor https, nor behind a proxy that does https.
 * @param what the listener in words, such as "The bench"
 * @throws {UnsafeReach}
 */
export function refuseUnsafe(
  what: string,
  { host, tls, publicUrl, behindProxy, insecureHttp }: Guarding,
): void {
  const isLocal = host === "localhost" || isLoopback(host);
  if (behindProxy && isIP(behindProxy) === 0) {
    throw new UnsafeReach(`The proxy is named by its address, such as 127.0.0.1 (got ${behindProxy}).`);
  }
  if (behindProxy && !publicUrl) {
    throw new UnsafeReach(
      `${what} behind a proxy needs to know where browsers find it: give --public-url too.`,
    );
  }
  if (publicUrl && !tls && !behindProxy) {
    throw new UnsafeReach(
      "A public address needs https: give a certificate with --tls-cert and --tls-key, or the address of the proxy that has one with --behind-proxy.",
    );
  }
  if (publicUrl && publicUrl.protocol !== "https:" && !insecureHttp) {
    throw new UnsafeReach("The public address has to begin with https://.");
  }
  if (isLocal || tls || behindProxy || insecureHttp) return;
  throw new UnsafeReach(
    `${what} at ${host} would send names, passwords and records over the network for anyone on it to read.\n` +
      "Give a certificate with --tls-cert and --tls-key, or put a proxy that has one in front with --behind-proxy (docs/guide/deploying.md).\n" +
      "To do it all the same, for a trial without real people, add --insecure-http.",
  );
}
