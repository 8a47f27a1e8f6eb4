import type { OutgoingHttpHeaders } from "node:http";
import type { InjectOptions } from "fastify";
import type { Entry } from "../../src/record/entry/index.ts";
import { openSqlite, type RecordStore } from "../../src/record/store/index.ts";
import { type Bench, type BenchOptions, buildServer } from "../../src/server/index.ts";
import { clinicEntry, now } from "../record/samples.ts";

/** A bench for tests: its record in memory, its clock standing still, asked without a network. */
export interface TestBench {
  bench: Bench;
  store: RecordStore;
  get(url: string, headers?: OutgoingHttpHeaders): Promise<Answer>;
  post(url: string, body: unknown, headers?: OutgoingHttpHeaders): Promise<Answer>;
  /** Sends a form with a file, as a browser does. */
  upload(url: string, file: string | Uint8Array, fields?: Record<string, string>): Promise<Answer>;
  close(): Promise<void>;
}

export interface Answer {
  status: number;
  headers: OutgoingHttpHeaders;
  // biome-ignore lint/suspicious/noExplicitAny: tests look into whatever came back
  json: any;
  text: string;
  bytes: Buffer;
}

export async function testBench(
  entries: readonly Entry[] = [clinicEntry()],
  options: Partial<BenchOptions> = {},
): Promise<TestBench> {
  const store = await openSqlite(":memory:");
  await store.append(entries);
  const bench = buildServer({ store, webDir: null, now: () => now, ...options });
  await bench.ready();
  const ask = async (request: InjectOptions): Promise<Answer> => {
    const reply = await bench.inject(request);
    const isJson = String(reply.headers["content-type"]).startsWith("application/json");
    return {
      status: reply.statusCode,
      headers: reply.headers,
      json: isJson ? reply.json() : null,
      text: reply.payload,
      bytes: reply.rawPayload,
    };
  };
  return {
    bench,
    store,
    get: (url, headers) => ask({ method: "GET", url, headers }),
    post: (url, body, headers) =>
      ask({
        method: "POST",
        url,
        headers: { "content-type": "application/json", ...headers },
        payload: typeof body === "string" ? body : JSON.stringify(body),
      }),
    upload: (url, file, fields = {}) => ask({ method: "POST", url, ...formOf(file, fields) }),
    async close() {
      await bench.close();
      await store.close();
    },
  };
}

function formOf(file: string | Uint8Array, fields: Record<string, string>) {
  const boundary = "----bench";
  const parts = Object.entries(fields).map(
    ([name, value]) => `--${boundary}\r\nContent-Disposition: form-data; name="${name}"\r\n\r\n${value}\r\n`,
  );
  const fileHead = `--${boundary}\r\nContent-Disposition: form-data; name="file"; filename="log.csv"\r\nContent-Type: text/csv\r\n\r\n`;
  return {
    headers: { "content-type": `multipart/form-data; boundary=${boundary}` },
    payload: Buffer.concat([
      Buffer.from(parts.join("") + fileHead),
      Buffer.from(file),
      Buffer.from(`\r\n--${boundary}--\r\n`),
    ]),
  };
}
