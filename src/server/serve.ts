import type { AddressInfo } from "node:net";
import { networkInterfaces } from "node:os";
import type { Logger } from "pino";
import { openSqlite, recordFile } from "../record/store/index.ts";
import { buildServer } from "./buildServer.ts";
import { listenError } from "./listenError.ts";
import { fileLog } from "./log.ts";

export interface ServeOptions {
  /** Folder with the record; made where it is not there. */
  dataDir: string;
  webDir: string | null;
  /** Loopback unless given: the bench has no sign-in yet. */
  host?: string;
  /** 0 takes any free one. */
  port?: number;
  allowedHosts?: readonly string[];
  /** A file in the data folder unless given. */
  log?: Logger;
  /** Whether Ctrl-C and a service's stop end the server; they do unless told otherwise. */
  stopOnSignals?: boolean;
}

export interface Served {
  url: string;
  host: string;
  port: number;
  /** Ends what is being answered, then closes the record. */
  close(): Promise<void>;
  /** Resolves when the server was closed, by whatever means. */
  closed: Promise<void>;
}

export const defaultPort = 4747;

/**
 * Opens the record in a folder and serves it. Prints nothing.
 * @throws {ListenError} where the address cannot be had
 */
export async function serve({
  dataDir,
  webDir,
  host = "127.0.0.1",
  port = defaultPort,
  allowedHosts = [],
  log,
  stopOnSignals = true,
}: ServeOptions): Promise<Served> {
  const store = await openSqlite(recordFile(dataDir));
  const bench = buildServer({
    store,
    webDir,
    log: log ?? fileLog(dataDir),
    allowedHosts: [...allowedHosts, ...namesOf(host)],
  });
  try {
    await bench.listen({ host, port });
  } catch (error) {
    await bench.close();
    await store.close();
    throw listenError(error, host, port);
  }
  const { port: taken } = bench.server.address() as AddressInfo;
  let closing: Promise<void> | null = null;
  const close = () => {
    closing ??= bench.close().then(() => store.close());
    return closing;
  };
  const closed = new Promise<void>((resolve, reject) => {
    bench.server.once("close", () => close().then(resolve, reject));
  });
  if (stopOnSignals) closeOnSignals(close, closed);
  return { url: `http://${nameFor(host)}:${taken}`, host, port: taken, close, closed };
}

/** A second signal ends the process at once, as it does everywhere. */
function closeOnSignals(close: () => Promise<void>, closed: Promise<void>): void {
  const signals = ["SIGINT", "SIGTERM"] as const;
  const stop = () => {
    for (const signal of signals) process.off(signal, stop);
    void close();
  };
  for (const signal of signals) process.on(signal, stop);
  void closed.finally(() => {
    for (const signal of signals) process.off(signal, stop);
  });
}

const everywhere = ["0.0.0.0", "::", ""];

/** Names by which the address itself may be asked. */
function namesOf(host: string): string[] {
  if (!everywhere.includes(host)) return [bracketed(host)];
  return Object.values(networkInterfaces()).flatMap((addresses) =>
    (addresses ?? []).map(({ address }) => bracketed(address)),
  );
}

function nameFor(host: string): string {
  return everywhere.includes(host) ? "localhost" : bracketed(host);
}

function bracketed(host: string): string {
  return host.includes(":") ? `[${host}]` : host;
}
