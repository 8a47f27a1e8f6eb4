import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Chance } from "../../src/record/demo/chance.ts";
import { openRecord } from "../../src/record/open/index.ts";
import { recordFile } from "../../src/record/store/index.ts";
import { serving } from "../postgres/serving.ts";
import { change, clinicId, draft, instant } from "../record/samples.ts";
import { makeAccount, signInDirectly } from "../server/bench.ts";
import { type Answered, type Asked, load } from "./load/users.ts";
import { Filling } from "./scale/fill.ts";

type Print = (line: string) => void;

const users = 200;
const people = 2000;
const seconds = 60;
/** A nurse who clicks every second does nothing else. */
const thinkMs = 1000;

interface Ids {
  personId: string;
  stomaId: string;
}

/**
 * 200 signed-in nurses, each with a session of their own, on one process of the bench over loopback for a minute: four
 * requests in ten are the list of today, four a person, two an entry. The peer is a bare server of Node's that answers
 * as many bytes from memory, asked by the same users in the same way: what the machine and the asking take.
 */
export async function benchLoad(print: Print): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "roundel-load-"));
  const dataDir = join(folder, "data");
  const bench = await ready(dataDir);
  const env = { XDG_CONFIG_HOME: join(folder, "settings") };
  const process_ = await serving(["--data", dataDir], env);
  try {
    const answers = await load({
      port: process_.port,
      cookies: bench.cookies,
      seconds,
      thinkMs,
      next: mix(bench.ids),
    });
    tell(answers, print);
    await peer(bench.cookies, bench.ids, print);
  } finally {
    await process_.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function ready(dataDir: string): Promise<{ cookies: string[]; ids: Ids[] }> {
  await (await openRecord({ dataDir })).close();
  const filling = new Filling(recordFile(dataDir), Date.now());
  filling.to(people, () => {});
  filling.close();
  const record = await openRecord({ dataDir });
  const cookies: string[] = [];
  for (let made = 0; made < users; made += 1) {
    const kept = new Map<string, string>();
    const account = await makeAccount(record, { role: "nurse" });
    await signInDirectly(record, account, { cookies: kept }, Date.now());
    cookies.push([...kept].map(([name, value]) => `${name}=${value}`).join("; "));
  }
  const rows = await record.db
    .selectFrom("stoma_row")
    .select(["person_id", "stoma_id"])
    .where("clinic_id", "=", clinicId)
    .execute();
  await record.close();
  return { cookies, ids: rows.map((row) => ({ personId: row.person_id, stomaId: row.stoma_id })) };
}

function mix(ids: readonly Ids[]): (chance: Chance) => Asked {
  return (chance) => {
    const share = chance.share();
    const about = chance.oneOf(ids);
    if (share < 0.4) return { what: "Today", method: "GET", path: "/api/today?limit=50" };
    if (share < 0.8) return { what: "a person", method: "GET", path: `/api/people/${about.personId}` };
    const at = instant(new Date().toISOString());
    const body = JSON.stringify({ entries: [draft("changed", change(), { ...about, at })] });
    return { what: "add an entry", method: "POST", path: "/api/entries", body };
  };
}

function tell(answers: readonly Answered[], print: Print): void {
  const isError = ({ status }: Answered) => status === null || status >= 400;
  print(
    `${users} users for ${seconds} s: ${answers.length.toLocaleString("en")} requests, ${(answers.length / seconds).toFixed(0)} a second, ${answers.filter(isError).length} errors`,
  );
  for (const what of ["Today", "a person", "add an entry"]) {
    const times = answers.filter((one) => one.what === what).map(({ ms }) => ms);
    print(`  ${what.padEnd(13)} p50 ${at(times, 0.5)}, p95 ${at(times, 0.95)}, p99 ${at(times, 0.99)} ms`);
  }
}

async function peer(cookies: readonly string[], ids: readonly Ids[], print: Print): Promise<void> {
  const answer = Buffer.alloc(60_000, "x");
  const server = createServer((asked, reply) => {
    asked.resume();
    asked.once("end", () => reply.end(answer));
  }).listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  const answers = await load({ port, cookies, seconds: 10, thinkMs, next: mix(ids) });
  server.close();
  server.closeAllConnections();
  const times = answers.map(({ ms }) => ms);
  print(
    `  a bare server of Node's, 60 kB from memory: p50 ${at(times, 0.5)}, p95 ${at(times, 0.95)}, p99 ${at(times, 0.99)} ms`,
  );
}

function at(times: number[], share: number): string {
  const sorted = [...times].sort((a, b) => a - b);
  return (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(1);
}
