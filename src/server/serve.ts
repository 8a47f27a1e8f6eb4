import type { AddressInfo } from "node:net";
import { networkInterfaces } from "node:os";
import type { Logger } from "pino";
import { linkTo } from "../record/accounts/index.ts";
import { type OpenRecord, openRecord } from "../record/open/index.ts";
import { recordFile, refuseDamaged } from "../record/store/index.ts";
import type { Bench } from "./bench.ts";
import { type BenchOptions, buildServer } from "./buildServer.ts";
import { buildHome } from "./home/index.ts";
import { listenError } from "./listenError.ts";
import type { Reach } from "./listener.ts";
import { fileLog } from "./log.ts";
import { refuseUnsafe } from "./reach.ts";

/** Where a listener listens and how it is reached. */
export interface Place extends Reach {
  /** Loopback unless given. */
  host?: string;
  /** 0 takes any free one. */
  port?: number;
}

export interface ServeOptions extends Omit<BenchOptions, "record" | "now">, Place {
  /** Folder with the record; made where it is not there. */
  dataDir: string;
  /** Database with the record; the folder then keeps the log alone. */
  databaseUrl?: string;
  /** Another place for the key file than the usual one. */
  keyFile?: string;
  /** A file in the data folder unless given. */
  log?: Logger;
  /** The home log, at an address of its own; not served unless given. */
  home?: Place;
  /** Plain http over a network, asked for in so many words. */
  insecureHttp?: boolean;
  /** Whether Ctrl-C and a service's stop end the server; they do unless told otherwise. */
  stopOnSignals?: boolean;
}

export interface Served {
  /** Where browsers find the bench. */
  url: string;
  host: string;
  port: number;
  /** Where browsers find the home log; null where it is not served. */
  homeUrl: string | null;
  /** Links by which somebody becomes the first lead: of a new clinic, or of each that has nobody to lead it. */
  setUpLinks: string[];
  /** Whether a recovery key on paper opens backups, should the key file be lost. */
  hasRecoveryKey: boolean;
  /** Ends what is being answered, then closes the record. */
  close(): Promise<void>;
  /** Resolves when the server was closed, by whatever means. */
  closed: Promise<void>;
}

export const defaultPort = 4747;
const here = "127.0.0.1";

/**
 * Opens the record in a folder and serves it. Prints nothing.
 * @throws {ListenError} where the address cannot be had
 * @throws {UnsafeReach} where records would travel for anyone to read
 */
export async function serve({
  dataDir,
  databaseUrl,
  keyFile,
  host = here,
  port = defaultPort,
  home,
  log,
  insecureHttp,
  stopOnSignals = true,
  ...options
}: ServeOptions): Promise<Served> {
  refuseUnsafe("The bench", { ...options, host, insecureHttp });
  // The home log needs https whatever was asked for: without it, it neither starts offline nor opens a camera.
  if (home) refuseUnsafe("The home log", { host: here, ...home });
  const record = await openRecord({ dataDir, url: databaseUrl, keyFile });
  const shared = { record, log: log ?? fileLog(dataDir) };
  const listening: Bench[] = [];
  let closing: Promise<void> | null = null;
  const close = () => {
    closing ??= Promise.all(listening.map((server) => server.close())).then(() => record.close());
    return closing;
  };
  const start = async (server: Bench, place: Required<Pick<Place, "host" | "port">> & Reach) => {
    listening.push(server);
    const taken = await listen(server, place.host, place.port);
    return { port: taken, url: urlOf(place, taken) };
  };
  try {
    if (databaseUrl === undefined) await refuseDamaged(record.db, recordFile(dataDir));
    await record.erasure.reconcile(Date.now());
    const named = { ...options, allowedHosts: [...(options.allowedHosts ?? []), ...namesOf(host)] };
    const bench = buildServer({ ...named, ...shared });
    const { url, port: taken } = await start(bench, { ...options, host, port });
    const homeUrl = home ? await startHome(home) : null;
    const closed = new Promise<void>((resolve, reject) => {
      bench.server.once("close", () => close().then(resolve, reject));
    });
    if (stopOnSignals) closeOnSignals(close, closed);
    const hasRecoveryKey = (await record.keys()).recovery !== null;
    const links = await setUpLinks(record, url);
    return { url, host, port: taken, homeUrl, setUpLinks: links, hasRecoveryKey, close, closed };
  } catch (error) {
    await close();
    throw error;
  }

  async function startHome({ host = here, port = 0, ...reach }: Place): Promise<string> {
    const allowedHosts = [...(reach.allowedHosts ?? []), ...namesOf(host)];
    return (await start(buildHome({ ...reach, allowedHosts, ...shared }), { ...reach, host, port })).url;
  }
}

async function listen(server: Bench, host: string, port: number): Promise<number> {
  try {
    await server.listen({ host, port });
  } catch (error) {
    throw listenError(error, host, port);
  }
  return (server.server.address() as AddressInfo).port;
}

/** One link for each clinic without a lead, or for the first clinic of an empty record. */
async function setUpLinks({ store, accounts }: OpenRecord, origin: string): Promise<string[]> {
  const clinicIds = await store.clinicIds();
  const waiting = clinicIds.length === 0 ? [null] : await accounts.withoutLead(clinicIds);
  const links = waiting.map((clinicId) => accounts.links.setUp(clinicId, Date.now()));
  return (await Promise.all(links)).map(({ token }) => linkTo("setUp", token, origin));
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

function urlOf({ host, tls, publicUrl }: Reach & { host: string }, port: number): string {
  return publicUrl?.origin ?? `${tls ? "https" : "http"}://${nameFor(host)}:${port}`;
}

/** By its name rather than its number, since passkeys are bound to a name. */
function nameFor(host: string): string {
  return everywhere.includes(host) || host === here ? "localhost" : bracketed(host);
}

function bracketed(host: string): string {
  return host.includes(":") ? `[${host}]` : host;
}
