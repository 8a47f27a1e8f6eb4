import type { OutgoingHttpHeaders } from "node:http";
import type { InjectOptions } from "fastify";
import { v4 } from "uuid";
import type { Account, AccountStore, Role } from "../../src/record/accounts/index.ts";
import type { Entry } from "../../src/record/entry/index.ts";
import { type OpenRecord, recordOver } from "../../src/record/open/index.ts";
import type { RecordStore } from "../../src/record/store/index.ts";
import { openSqliteDatabase } from "../../src/record/store/sqlite/index.ts";
import { type Bench, type BenchOptions, buildServer } from "../../src/server/index.ts";
import { clinicEntry, clinicId, now, nurse } from "../record/samples.ts";

/** A browser that asks a bench: it keeps its cookies. */
export interface Asker {
  get(url: string, headers?: OutgoingHttpHeaders): Promise<Answer>;
  post(url: string, body?: unknown, headers?: OutgoingHttpHeaders): Promise<Answer>;
  put(url: string, body?: unknown, headers?: OutgoingHttpHeaders): Promise<Answer>;
  delete(url: string, body?: unknown, headers?: OutgoingHttpHeaders): Promise<Answer>;
  /** Sends a form with a file, as a browser does. */
  upload(
    url: string,
    file: string | Uint8Array,
    fields?: Record<string, string>,
    method?: "POST" | "PUT",
  ): Promise<Answer>;
  cookies: Map<string, string>;
}

/** A bench for tests: its record in memory, its clock standing still, asked without a network by its lead. */
export interface TestBench extends Asker {
  bench: Bench;
  record: OpenRecord;
  store: RecordStore;
  accounts: AccountStore;
  /** The lead who asks; signed in where the record has a clinic. */
  lead: Account | null;
  /** Somebody else of the clinic, or of another, signed in at a browser of their own. */
  as(role: Role, more?: { clinicId?: string; personId?: string }): Promise<Asker & { account: Account }>;
  anonymous(): Asker;
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
  const record = recordOver(await openSqliteDatabase(":memory:"));
  await record.store.append(entries);
  const bench = buildServer({ record, webDir: null, now: () => now, ...options });
  await bench.ready();
  const as: TestBench["as"] = async (role, more = {}) => {
    const account = await makeAccount(record, { role, ...more });
    const asker = askerOf(bench);
    await signInDirectly(record, account, asker, options.now?.() ?? now);
    return Object.assign(asker, { account });
  };
  const isSetUp = entries.some(({ kind }) => kind === "clinic");
  const mine = askerOf(bench);
  const lead = isSetUp
    ? await makeAccount(record, { role: "lead", accountId: nurse.id, displayName: nurse.name })
    : null;
  if (lead) await signInDirectly(record, lead, mine, options.now?.() ?? now);
  return {
    ...mine,
    bench,
    record,
    store: record.store,
    accounts: record.accounts,
    lead,
    as,
    anonymous: () => askerOf(bench),
    async close() {
      await bench.close();
      await record.close();
    },
  };
}

let made = 0;

/** An account without a password: nobody waits for a hash. */
export function makeAccount(
  { accounts }: Pick<OpenRecord, "accounts">,
  about: {
    role: Role;
    accountId?: string;
    displayName?: string;
    clinicId?: string;
    personId?: string;
    passwordHash?: string;
  },
): Promise<Account> {
  made += 1;
  return accounts.create(
    {
      accountId: v4(),
      clinicId,
      signInName: `${about.role} ${made}`,
      displayName: `Somebody ${made}`,
      passwordHash: null,
      ...about,
    },
    now,
  );
}

/** A session as a sign-in makes it. */
export async function signInDirectly(
  { accounts }: Pick<OpenRecord, "accounts">,
  account: Account,
  { cookies }: Pick<Asker, "cookies">,
  nowMs = now,
): Promise<void> {
  const isHome = account.role === "person" || account.role === "helper";
  const listener = isHome ? "home" : "bench";
  const { secret } = await accounts.sessions.start(account, { listener, device: "a test", nowMs });
  cookies.set(isHome ? "roundel-home" : "roundel", secret);
}

/** A browser without any cookie yet. */
export function askerOf(bench: Bench): Asker {
  const cookies = new Map<string, string>();
  const ask = async (request: InjectOptions): Promise<Answer> => {
    const cookie = [...cookies].map(([name, value]) => `${name}=${value}`).join("; ");
    const headers = { ...(cookie ? { cookie } : {}), ...request.headers };
    const reply = await bench.inject({ ...request, headers });
    for (const { name, value } of reply.cookies) {
      if (value === "") cookies.delete(name);
      else cookies.set(name, value);
    }
    const isJson = String(reply.headers["content-type"]).startsWith("application/json");
    return {
      status: reply.statusCode,
      headers: reply.headers,
      json: isJson ? reply.json() : null,
      text: reply.payload,
      bytes: reply.rawPayload,
    };
  };
  const send =
    (method: "POST" | "PUT" | "DELETE") =>
    (url: string, body: unknown = {}, headers: OutgoingHttpHeaders = {}) =>
      ask({
        method,
        url,
        headers: { "content-type": "application/json", ...headers },
        payload: typeof body === "string" ? body : JSON.stringify(body),
      });
  return {
    cookies,
    get: (url, headers) => ask({ method: "GET", url, headers }),
    post: send("POST"),
    put: send("PUT"),
    delete: send("DELETE"),
    upload: (url, file, fields = {}, method = "POST") => ask({ method, url, ...formOf(file, fields) }),
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
