/** Names that only this machine answers to. */
export const loopbackNames = ["localhost", "127.0.0.1", "[::1]"];

/** Whether an address is one of this machine's own, which nobody else can reach or send from. */
export function isLoopback(address: string | undefined): boolean {
  const plain = plainAddress(address);
  return plain === "::1" || /^127(\.\d{1,3}){3}$/.test(plain);
}

/** An IPv4 address as it is written everywhere, also where it came in an IPv6 socket. */
export function plainAddress(address: string | undefined): string {
  return (address ?? "").toLowerCase().replace(/^::ffff:(?=\d+\.)/, "");
}
