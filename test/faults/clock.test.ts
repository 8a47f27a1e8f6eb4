import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicDetails, clinicEntry, clinicId, draft, now, samplePerson } from "../record/samples.ts";
import { askerOf } from "../server/bench.ts";
import { type FileBench, fileBench } from "./fileBench.ts";

const minute = 60_000;
const hour = 60 * minute;
const edda = samplePerson();
const { personId } = edda;

let folder: string;
let bench: FileBench;
let nowMs: number;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "roundel-clock-"));
  nowMs = now;
  bench = await fileBench(folder, [clinicEntry(), ...edda.entries], () => nowMs);
});
afterEach(async () => {
  await bench.close();
  rmSync(folder, { recursive: true, force: true });
});

const note = (text: string) => draft("noted", { text }, { personId });

describe("a clock that goes back an hour", () => {
  it("changes no order: what was written later stands later, and the trail holds", async () => {
    const [before, after] = [note("before"), note("after")];
    expect((await bench.post("/api/entries", { entries: [before] })).status).toBe(201);
    nowMs -= hour;
    expect((await bench.post("/api/entries", { entries: [after] })).status).toBe(201);
    const ids = (await bench.get(`/api/people/${personId}`)).json.entries.map(({ id }: { id: string }) => id);
    expect(ids.slice(-2)).toEqual([before.id, after.id]);
    expect(await bench.record.audit.verify(clinicId)).toMatchObject({ ok: true });
    const { lines } = await bench.record.audit.page(clinicId, { limit: 9 });
    expect(lines.map(({ seq, atMs }) => [seq, atMs - now])).toEqual([
      [3, -hour],
      [2, -hour],
      [1, 0],
    ]);
  });

  it("gives ids of its own that are like no other", async () => {
    const change = (nursePhone: string) =>
      bench.post("/api/clinic", { details: { ...clinicDetails, nursePhone } });
    await change("01632 960 200");
    nowMs -= hour;
    await change("01632 960 201");
    const { json } = await bench.get("/api/session");
    expect(json.clinic.details.nursePhone).toBe("01632 960 201");
    const entries = await bench.record.store.clinicEntries(clinicId);
    expect(new Set(entries.map(({ id }) => id)).size).toBe(3);
  });

  it("lets what was written be corrected, and refuses no sheet for it", async () => {
    const first = note("in the later hour");
    await bench.post("/api/entries", { entries: [first] });
    nowMs -= hour;
    const corrects = { id: first.id as string, as: "replace" } as const;
    const better = draft("noted", { text: "better" }, { personId, corrects, reason: "misheard" });
    expect((await bench.post("/api/entries", { entries: [better] })).status).toBe(201);
    expect((await bench.get("/api/today")).status).toBe(200);
  });

  it("ends no session before its time, and leaves none open without end", async () => {
    nowMs -= hour;
    expect((await bench.get("/api/session")).json.signedIn).toBe(true);
    nowMs += hour + 29 * minute;
    expect((await bench.get("/api/session")).json.signedIn).toBe(true);
    nowMs += 13 * hour;
    expect((await bench.get("/api/session")).json.signedIn).toBe(false);
  });

  it("makes nobody wait longer than the longest wait there is", async () => {
    const stranger = askerOf(bench.bench);
    const signIn = () =>
      stranger.post("/api/sign-in", { signInName: "nobody", password: "wrong horse battery" });
    let waiting = await signIn();
    while (waiting.status !== 429) waiting = await signIn();
    nowMs -= hour;
    const { status, json } = await signIn();
    expect(status).toBe(429);
    expect(json.error.waitSeconds).toBeLessThanOrEqual(15 * 60);
    nowMs += 16 * minute;
    expect((await signIn()).status).toBe(401);
  });
});
