import { readFile } from "node:fs/promises";
import { InvalidArgumentError } from "commander";
import type { Place, Tls } from "../../server/index.ts";
import { Refusal } from "../ending.ts";

/** How the bench and the home log are reached, as options say it. */
export interface ReachOptions {
  port?: number;
  host?: string;
  allowHost?: string[];
  tlsCert?: string;
  tlsKey?: string;
  publicUrl?: URL;
  behindProxy?: string;
  homePort?: number;
  homeHost?: string;
  homeTlsCert?: string;
  homeTlsKey?: string;
  homeUrl?: URL;
}

export async function benchPlace(options: ReachOptions): Promise<Place> {
  const { host, port, allowHost, tlsCert, tlsKey, publicUrl, behindProxy } = options;
  const tls = await readTls(tlsCert, tlsKey, "--tls");
  return { host, port, allowedHosts: allowHost, tls, publicUrl, behindProxy };
}

/** Undefined where no home log was asked for. */
export async function homePlace(options: ReachOptions): Promise<Place | undefined> {
  const { homePort, homeHost, homeTlsCert, homeTlsKey, homeUrl, behindProxy } = options;
  if (homePort === undefined) {
    if (homeHost !== undefined || homeUrl !== undefined || homeTlsCert !== undefined) {
      throw new Refusal("The home log needs a port of its own: add --home-port.");
    }
    return undefined;
  }
  const tls = await readTls(homeTlsCert, homeTlsKey, "--home-tls");
  return {
    host: homeHost,
    port: homePort,
    tls,
    publicUrl: homeUrl,
    behindProxy: homeUrl && !tls ? behindProxy : null,
  };
}

/** @throws {Refusal} where only one of the two was named, or one cannot be read */
async function readTls(cert: string | undefined, key: string | undefined, name: string): Promise<Tls | null> {
  if (cert === undefined && key === undefined) return null;
  if (cert === undefined || key === undefined) {
    throw new Refusal(`A certificate and its key come together: give ${name}-cert and ${name}-key.`);
  }
  return { cert: await readPem(cert), key: await readPem(key) };
}

async function readPem(file: string): Promise<Buffer> {
  const bytes = await readFile(file).catch((error: NodeJS.ErrnoException) => {
    throw new Refusal(`The file ${file} cannot be read (${error.code}).`);
  });
  if (bytes.includes("-----BEGIN ")) return bytes;
  throw new Refusal(`The file ${file} is not PEM: it holds no line that begins with -----BEGIN.`);
}

export function readPort(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65_535) {
    throw new InvalidArgumentError("A port is a number from 0 to 65535.");
  }
  return port;
}

/** An address with nothing behind the name and port. */
export function readOrigin(text: string): URL {
  const url = URL.canParse(text) ? new URL(text) : null;
  const isOrigin = url !== null && /^https?:$/.test(url.protocol) && `${url.origin}/` === url.href;
  if (!isOrigin) throw new InvalidArgumentError("An address is written like https://bench.clinic.example.");
  return url;
}
