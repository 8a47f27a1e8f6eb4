import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type AnyTopic, allTopics } from "../../src/cli/compute/topics.ts";
import { runCommand } from "../../src/cli/main.ts";
import { exportRecord } from "../../src/record/exchange/index.ts";
import { openRecord } from "../../src/record/open/index.ts";
import { change, clinicEntry, clinicId, entry, instant, samplePerson } from "../record/samples.ts";
import { bent, fuzz, fuzzSeed, hostileBytes, innards, spoiled } from "./hostile.ts";

const edda = samplePerson();
const log = [
  "date,time,what,why,note",
  "2026-11-20,08:00,barrier,planned,",
  "2026-11-22,21:30,pouch,leak past edge,at night",
  "23/11/2026,9 pm,barrier,planned,",
].join("\n");

let folder: string;
let input: string;
let topics: AnyTopic[];
let record: string[];
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "roundel-fuzz-"));
  input = join(folder, "input");
  topics = await allTopics();
  const opened = await openRecord({ dataDir: join(folder, "clinic") });
  const changed = entry("changed", change(), { ...edda.about, at: instant("2026-11-20T08:00:00Z") });
  await opened.store.append([clinicEntry(), ...edda.entries, changed]);
  record = [];
  const exportedAt = "2026-11-25T10:00:00Z";
  for await (const line of exportRecord(opened.store, clinicId, { exportedAt })) record.push(line);
  await opened.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs one command in this process. */
async function run(args: string[], bytes: Uint8Array): Promise<{ status: number; out: string; err: string }> {
  writeFileSync(input, bytes);
  const out: string[] = [];
  const err: string[] = [];
  const spies = [
    vi.spyOn(process.stdout, "write").mockImplementation((chunk) => out.push(String(chunk)) > 0),
    vi.spyOn(process.stderr, "write").mockImplementation((chunk) => err.push(String(chunk)) > 0),
    vi.spyOn(console, "error").mockImplementation((...said) => {
      err.push(`${said.map((one) => (one instanceof Error ? one.stack : String(one))).join(" ")}\n`);
    }),
  ];
  try {
    return { status: await runCommand([...args, input]), out: out.join(""), err: err.join("") };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

/** Done, or refused in words; never failed, and nothing of the inside told. */
function expectWords(what: string, { status, out, err }: Awaited<ReturnType<typeof run>>): void {
  const told = err.replaceAll(folder, "").replace(/\(got .*$/gm, "");
  expect([what, status === 0 || status === 2 ? "in words" : `status ${status}: ${err}`]).toEqual([
    what,
    "in words",
  ]);
  expect(told).not.toMatch(/\n\s+at /);
  expect(told.replace(/expected .*$/gm, "")).not.toMatch(innards);
  if (status === 2 && !out) expect(err.trim()).not.toBe("");
}

const asBytes = (document: unknown) => Buffer.from(JSON.stringify(document) ?? "");

describe("whatever is given to a command", () => {
  it(`of roundel compute is answered, or its fault named (seed ${fuzzSeed})`, async () => {
    const counts = new Map<string, number>();
    const documents = (topic: AnyTopic) =>
      fc
        .oneof(
          { weight: 6, arbitrary: bent(topic.example).map(asBytes) },
          { weight: 3, arbitrary: spoiled(topic.example).map(asBytes) },
          { weight: 1, arbitrary: hostileBytes },
        )
        .chain((bytes) => fc.boolean().map((lines) => ({ topic: topic.name, bytes, lines })));
    const isAnswered = async ({ topic, bytes, lines }: { topic: string; bytes: Buffer; lines: boolean }) => {
      const said = await run(["compute", topic, ...(lines ? ["--lines"] : [])], bytes);
      counts.set(topic, (counts.get(topic) ?? 0) + 1);
      expectWords(topic, said);
      if (said.status === 0) for (const line of said.out.trimEnd().split("\n")) JSON.parse(line || "null");
    };
    for (const topic of topics) {
      for (const input of fc.sample(documents(topic), { numRuns: 3, seed: fuzzSeed }))
        await isAnswered(input);
    }
    const any = fc.nat(topics.length - 1).chain((index) => documents(topics[index]!));
    await fuzz(any, 10, isAnswered);
    const all = [...counts.values()].reduce((sum, times) => sum + times, 0);
    console.log(`${all} documents to ${counts.size} of ${topics.length} topics`);
    expect(counts.size).toBe(topics.length);
  }, 3_600_000);

  it(`of roundel import and import log is taken in, or its fault named (seed ${fuzzSeed})`, async () => {
    const data = join(folder, "clinic");
    const spoiltLine = fc
      .nat(record.length - 1)
      .chain((at) => spoiled(JSON.parse(record[at]!)).map((line) => ({ at, line })))
      .map(({ at, line }) =>
        record.map((own, index) => (index === at ? `${JSON.stringify(line)}\n` : own)).join(""),
      );
    const spoiltLog = fc
      .record({
        from: fc.nat(log.length),
        length: fc.nat(8),
        by: fc.string({ unit: "binary", maxLength: 12 }),
      })
      .map(({ from, length, by }) => log.slice(0, from) + by + log.slice(from + length));
    const any = fc.oneof(
      spoiltLine.map((text) => ({ args: ["import"], bytes: Buffer.from(text) })),
      hostileBytes.map((bytes) => ({ args: ["import"], bytes })),
      spoiltLog.map((text) => ({
        args: ["import", "log", "--person", edda.personId],
        bytes: Buffer.from(text),
      })),
      hostileBytes.map((bytes) => ({ args: ["import", "log", "--person", edda.personId], bytes })),
    );
    let asked = 0;
    await fuzz(fc.tuple(any, fc.boolean()), 6, async ([{ args, bytes }, goodOnly]) => {
      asked += 1;
      expectWords(
        args.join(" "),
        await run([...args, "--data", data, ...(goodOnly ? ["--good-only"] : [])], bytes),
      );
    });
    console.log(`${asked} files`);
    const opened = await openRecord({ dataDir: data });
    expect(await opened.audit.verify(clinicId)).toMatchObject({ ok: true });
    await opened.close();
  }, 3_600_000);
});
