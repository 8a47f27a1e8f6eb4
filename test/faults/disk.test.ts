import { spawnSync } from "node:child_process";
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { sql } from "kysely";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { chanceFrom } from "../../src/record/demo/chance.ts";
import { openRecord } from "../../src/record/open/index.ts";
import { DatabaseFault, recordFile } from "../../src/record/store/index.ts";
import { buildServer, serve } from "../../src/server/index.ts";
import { roundel } from "../cli/roundel.ts";
import { clinicEntry, draft, now, samplePerson } from "../record/samples.ts";
import { askerOf } from "../server/bench.ts";
import { fileBench } from "./fileBench.ts";
import { clinicId, jobOf } from "./job.ts";
import { allEntries, expectRebuildTheSame, expectWhole } from "./wholeness.ts";
import { write } from "./writers.ts";

const seed = Number(process.env.FAULT_SEED ?? 20_261_125);
const edda = samplePerson();
const { personId } = edda;

let folder: string;
let dataDir: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "roundel-disk-"));
  dataDir = join(folder, "clinic");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const note = () => draft("noted", { text: "x".repeat(3000) }, { personId });
const keyOf = async () => {
  const record = await openRecord({ dataDir });
  const key = (await record.keys()).auditKey();
  await record.close();
  return key;
};

describe("a full disk", () => {
  it("is said in words; nothing is half written, and all goes on once there is room", async () => {
    const bench = await fileBench(dataDir, [clinicEntry(), ...edda.entries]);
    const { db } = bench.record;
    const { rows } = await sql<{ page_count: number }>`pragma page_count`.execute(db);
    await sql.raw(`pragma max_page_count = ${rows[0]!.page_count + 4}`).execute(db);
    const kept: string[] = [];
    let refused = 0;
    for (let tries = 0; tries < 60 && refused < 5; tries += 1) {
      const [first, second] = [note(), note()];
      const { status, json } = await bench.post("/api/entries", { entries: [first, second] });
      if (status === 201) kept.push(first.id as string, second.id as string);
      else {
        refused += 1;
        expect([status, json.error.code]).toEqual([507, "diskFull"]);
        expect(json.error.sentence).toMatch(/disk .* is full: nothing of this was kept/);
      }
    }
    expect(refused).toBe(5);
    // What cannot be written down is not shown either, and says the same.
    for (let looks = 0; looks < 40; looks += 1) {
      const look = await bench.get(`/api/people/${personId}`);
      if (look.status !== 200) expect([look.status, look.json.error.code]).toEqual([507, "diskFull"]);
    }
    const there = (await bench.record.store.entriesOfPerson(clinicId, personId)).map(({ id }) => id);
    expect(there).toEqual([...edda.entries.map(({ id }) => id), ...kept]);

    await sql.raw("pragma max_page_count = 4294967294").execute(db);
    expect((await bench.post("/api/entries", { entries: [note()] })).status).toBe(201);
    expect((await bench.get(`/api/people/${personId}`)).status).toBe(200);
    expect(await bench.record.audit.verify(clinicId)).toMatchObject({ ok: true });
    await expectRebuildTheSame(bench.record);
    await bench.close();
  });

  it.skipIf(!canLimitFiles())(
    "that is met by the operating system is said too, and what was kept is whole",
    async () => {
      const auditKey = await keyOf();
      const limited = await writeUnderLimit(dataDir, auditKey, 3_500_000);
      expect(limited.stderr).toMatch(/SQLITE_(FULL|IOERR)|database or disk is full|disk I\/O error/);
      const acknowledged = limited.stdout.split("\n").filter((line) => /^[0-9a-f-]{36}/.test(line));
      expect(acknowledged.length).toBeGreaterThan(10);
      const record = await openRecord({ dataDir });
      const ids = acknowledged.flatMap((line) => line.split(","));
      await expectWhole(record, { clinicId, acknowledged: ids, batches: jobOf(seed) });
      await expectRebuildTheSame(record);
      await record.close();
    },
  );
});

describe("a folder that may not be written to", () => {
  it("is said when the bench starts, not stumbled over", async () => {
    mkdirSync(dataDir);
    chmodSync(dataDir, 0o555);
    if (process.getuid?.() === 0) writeSync(openSync(recordFile(dataDir), "w"), "");
    const opening = asSomebody(dataDir);
    expect(opening.stderr).toMatch(
      /cannot be opened for writing. Whoever runs Roundel needs the right to write/,
    );
    expect(opening.stderr).not.toMatch(/\n\s+at /);
    chmodSync(dataDir, 0o755);
  });

  it("found out while it runs is answered in words, and nothing is lost", async () => {
    const bench = await fileBench(dataDir, [clinicEntry(), ...edda.entries]);
    await sql`pragma query_only = on`.execute(bench.record.db);
    const { status, json } = await bench.post("/api/entries", { entries: [note()] });
    expect([status, json.error.code]).toEqual([503, "notWritable"]);
    await sql`pragma query_only = off`.execute(bench.record.db);
    expect((await bench.post("/api/entries", { entries: [note()] })).status).toBe(201);
    await bench.close();
  });
});

describe("a write-ahead log that was cut short", () => {
  it("opens to the last whole transaction before the cut, wherever it is", async () => {
    const auditKey = await keyOf();
    const chance = chanceFrom(seed);
    const written = await write(dataDir, { auditKey, seed, killAfter: (done) => (done >= 30 ? 0 : null) });
    const file = recordFile(dataDir);
    const wal = `${file}-wal`;
    expect(statSync(wal).size).toBeGreaterThan(100_000);
    const counts = new Set<number>();
    for (let cut = 0; cut < 12; cut += 1) {
      const torn = join(folder, `torn-${cut}`);
      mkdirSync(torn);
      copyFileSync(file, recordFile(torn));
      copyFileSync(wal, `${recordFile(torn)}-wal`);
      truncateSync(`${recordFile(torn)}-wal`, Math.floor(chance.share() * statSync(wal).size));
      const record = await openRecord({ dataDir: torn, keyFile: keyFileOf(dataDir) });
      const there = await allEntries(record, clinicId);
      // Those that are there are the first ones, without a gap.
      expect(there.map(({ id }) => id)).toEqual(written.ids.slice(0, there.length));
      await expectWhole(record, { clinicId, acknowledged: [], batches: jobOf(seed) });
      await expectRebuildTheSame(record);
      counts.add(there.length);
      await record.close();
    }
    expect(counts.size).toBeGreaterThan(5);
  });
});

describe("a damaged file", () => {
  /** Overwrites pages in the middle of a record that nobody has open. */
  const damage = (share: number, pages = 3) => {
    const file = recordFile(dataDir);
    const database = new Database(file);
    database.pragma("wal_checkpoint(truncate)");
    database.pragma("journal_mode = delete");
    database.close();
    const page = Math.floor((statSync(file).size / 4096) * share);
    writeSync(openSync(file, "r+"), Buffer.alloc(4096 * pages, 0xa7), 0, 4096 * pages, page * 4096);
  };
  const people = Array.from({ length: 60 }, () => samplePerson()).flatMap(({ entries }) => entries);

  it.each([
    ["in its middle", 0.5],
    ["near its end", 0.9],
    ["at its very beginning", 0],
  ])("%s is found when the bench starts, and the way back is shown", async (_where, share) => {
    const bench = await fileBench(dataDir, [clinicEntry(), ...people]);
    await bench.close();
    damage(share);
    const starting = serve({ dataDir, webDir: null, port: 0, stopOnSignals: false });
    await expect(starting).rejects.toThrow(DatabaseFault);
    await expect(starting).rejects.toThrow(/is damaged: .*roundel restore BACKUP --data FOLDER$/);
    const said = await roundel(["serve", "--data", dataDir, "--port", "0"]);
    expect(said.status).toBe(1);
    expect(said.stderr).toMatch(/^The record .* is damaged: .*roundel restore BACKUP --data FOLDER\n$/);
  });

  it("found out while the bench runs is answered in words, without what is inside", async () => {
    const before = await fileBench(dataDir, [clinicEntry(), ...people]);
    const { cookies } = before;
    await before.close();
    damage(0.3, 12);
    const record = await openRecord({ dataDir });
    const bench = buildServer({ record, webDir: null, now: () => now });
    const asker = askerOf(bench);
    for (const [name, value] of cookies) asker.cookies.set(name, value);
    const codes = new Map<string, number>();
    for (const id of new Set(people.map((one) => one.personId!))) {
      const { status, json, text } = await asker.get(`/api/people/${id}`);
      const code = status === 200 ? "shown" : `${status} ${json.error.code}`;
      codes.set(code, (codes.get(code) ?? 0) + 1);
      if (status !== 200) expect(text).not.toMatch(/SQLITE|sqlite|\/tmp|node_modules|malformed/);
    }
    expect([...codes.keys()].filter((code) => code !== "shown")).toEqual(["503 recordDamaged"]);
    await bench.close();
    await record.close();
  });
});

/** Runs a command as an account that owns nothing here; as oneself where one is nobody special already. */
function asSomebody(data: string) {
  const isRoot = process.getuid?.() === 0;
  if (isRoot) chmodSync(folder, 0o755);
  const script = `import("./src/record/store/sqlite/index.ts").then(({ openSqlite, recordFile }) =>
    openSqlite(recordFile(${JSON.stringify(data)}))).catch((error) => { console.error(error.message); process.exit(1); })`;
  return spawnSync(process.execPath, ["--import", "tsx", "-e", script], {
    encoding: "utf8",
    ...(isRoot ? { uid: 65_534, gid: 65_534 } : {}),
    env: { ...process.env, TMPDIR: "/tmp", TSX_DISABLE_CACHE: "1" },
  });
}

function canLimitFiles(): boolean {
  return spawnSync("prlimit", ["--version"]).status === 0;
}

/** A writer whose files may not grow past a size: the system refuses the write, as a full disk does. */
async function writeUnderLimit(data: string, auditKey: Uint8Array, bytes: number) {
  const file = new URL("writer.ts", import.meta.url).pathname;
  // Node is not told of the signal that comes with it; without a handler it would end there.
  const ignoring = `process.on("SIGXFSZ", () => {}); process.argv.splice(1, 0, "writer"); await import(${JSON.stringify(file)});`;
  return spawnSync(
    "prlimit",
    [
      `--fsize=${bytes}`,
      process.execPath,
      "--import",
      "tsx",
      "--input-type=module",
      "-e",
      ignoring,
      data,
      String(seed),
      "0",
      Buffer.from(auditKey).toString("hex"),
    ],
    { encoding: "utf8" },
  );
}

function keyFileOf(data: string): string {
  const database = new Database(recordFile(data), { readonly: true });
  const { value } = database.prepare("select value from mark where name = 'recordId'").get() as {
    value: string;
  };
  database.close();
  const file = join(process.env.XDG_CONFIG_HOME!, "roundel", `${value}.key`);
  expect(existsSync(file) && readFileSync(file, "utf8").includes(value)).toBe(true);
  return file;
}
