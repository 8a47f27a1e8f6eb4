import { mkdtempSync, rmSync } from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as later } from "node:timers/promises";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openRecord } from "../../src/record/open/index.ts";
import { clinicEntry, draft, samplePerson } from "../record/samples.ts";
import { type FileBench, fileBench } from "./fileBench.ts";
import { clinicId, jobOf } from "./job.ts";
import { expectRebuildTheSame, expectWhole } from "./wholeness.ts";
import { write } from "./writers.ts";

const edda = samplePerson();
const { personId, stomaId } = edda;

let dataDir: string;
beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), "roundel-together-"));
});
afterEach(() => rmSync(dataDir, { recursive: true, force: true }));

describe("two processes that write into one file", () => {
  it("wait for each other; both keep everything, and the trail is one chain", async () => {
    const record = await openRecord({ dataDir });
    const auditKey = (await record.keys()).auditKey();
    const killAfter = (batches: number) => (batches >= 120 ? 0 : null);
    const both = await Promise.all(
      [11, 12].map((seed) => write(dataDir, { auditKey, seed, killAfter, from: seed === 12 ? 1 : 0 })),
    );
    const acknowledged = both.flatMap(({ ids }) => ids);
    expect(acknowledged.length).toBeGreaterThan(240);
    await expectWhole(record, { clinicId, acknowledged, batches: [...jobOf(11), ...jobOf(12)] });
    await expectRebuildTheSame(record);
    await record.close();
  });
});

describe("what arrives over HTTP", () => {
  let bench: FileBench;
  beforeEach(async () => {
    bench = await fileBench(dataDir, [clinicEntry(), ...edda.entries]);
  });
  afterEach(() => bench.close());
  const entries = () => bench.record.store.entriesOfPerson(clinicId, personId);
  const note = (text: string, more: Parameters<typeof draft>[2] = {}) =>
    draft("noted", { text }, { personId, ...more });

  it("twice, or ten times at once, is kept once and acknowledged each time", async () => {
    const sent = note("Called back.");
    const answers = await Promise.all(
      Array.from({ length: 10 }, () => bench.post("/api/entries", { entries: [sent] })),
    );
    expect(answers.map(({ status }) => status)).toEqual(Array(10).fill(201));
    expect(new Set(answers.map(({ json }) => json.entries[0].cursor)).size).toBe(1);
    expect((await entries()).filter(({ id }) => id === sent.id)).toHaveLength(1);
  });

  it("as two corrections of one entry at once: one is kept, the other is shown it and loses nothing", async () => {
    const first = note("the figure was misread");
    await bench.post("/api/entries", { entries: [first] });
    const corrects = { id: first.id as string, as: "replace" } as const;
    const corrections = ["32 mm", "33 mm"].map((text) => note(text, { corrects, reason: "read again" }));
    const answers = await Promise.all(
      corrections.map((one) => bench.post("/api/entries", { entries: [one] })),
    );
    const won = answers.findIndex(({ status }) => status === 201);
    const lost = 1 - won;
    expect(answers[lost]).toMatchObject({ status: 409, json: { error: { code: "alreadyCorrected" } } });
    const { existing } = answers[lost]!.json.error;
    expect(existing).toMatchObject({ id: corrections[won]!.id, body: corrections[won]!.body });
    expect(answers[lost]!.json.error.sentence).toMatch(/Somebody corrected this entry before you/);

    // The second writer still has what was typed, and corrects the correction.
    const again: Record<string, unknown> = {
      ...corrections[lost]!,
      corrects: { id: existing.id, as: "replace" },
    };
    expect((await bench.post("/api/entries", { entries: [again] })).status).toBe(201);
    expect((await entries()).map(({ id }) => id).slice(-3)).toEqual([first.id, existing.id, again.id]);
  });

  it("and breaks off on the way leaves nothing behind, and the next is served", async () => {
    await bench.bench.listen({ port: 0, host: "127.0.0.1" });
    const { port } = bench.bench.server.address() as { port: number };
    const cookie = [...bench.cookies].map(([name, value]) => `${name}=${value}`).join("; ");
    const url = `/api/people/${personId}/stomas/${stomaId}/log/import`;
    const form = `--b\r\nContent-Disposition: form-data; name="accept"\r\n\r\nall\r\n--b\r\nContent-Disposition: form-data; name="file"; filename="a.csv"\r\n\r\ndate,what,why\n2026-11-20,barrier,planned\n`;
    const before = (await entries()).length;
    for (const sent of [0, 40, 150, form.length]) {
      const head = [
        `POST ${url} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
        "Content-Type: multipart/form-data; boundary=b",
        "Content-Length: 4000000",
      ];
      const socket = connect(port, "127.0.0.1");
      socket.on("error", () => {});
      socket.write(`${head.join("\r\n")}\r\n\r\n${form.slice(0, sent)}`);
      await later(30);
      socket.destroy();
    }
    const half = await aborted(port, cookie, JSON.stringify({ entries: [note("half")] }).slice(0, 60));
    expect(half).toBe("broke off");
    await later(100);
    expect((await entries()).length).toBe(before);
    expect((await bench.post("/api/entries", { entries: [note("whole")] })).status).toBe(201);
    expect(await bench.record.audit.verify(clinicId)).toMatchObject({ ok: true });
  });
});

/** Sends the beginning of a body that was said to be longer, and hangs up. */
function aborted(port: number, cookie: string, body: string): Promise<string> {
  return new Promise((resolve) => {
    const headers = { cookie, "content-type": "application/json", "content-length": 9999 };
    const asked = request({ port, host: "127.0.0.1", method: "POST", path: "/api/entries", headers });
    asked.on("error", () => resolve("broke off"));
    asked.on("response", () => resolve("answered"));
    asked.write(body);
    setTimeout(() => asked.destroy(), 50);
  });
}
