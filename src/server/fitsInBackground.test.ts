import { setTimeout as later } from "node:timers/promises";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicEntry, clinicId, day, entry, round, samplePerson } from "../../test/record/samples.ts";
import { type TestBench, testBench } from "../../test/server/bench.ts";
import { programVersion } from "../record/programVersion.ts";

/** Many stomas with a curve each: more than a list waits for. */
const people = Array.from({ length: 40 }, () => samplePerson());
const entries = people.flatMap(({ about, entries: own }) => [
  ...own,
  ...[38, 35, 33, 32].map((mm, week) =>
    entry(
      "measured",
      { ...round(mm), method: "tracing", stepMm: undefined },
      { ...about, at: day(`2026-11-${String(1 + 7 * week).padStart(2, "0")}`) },
    ),
  ),
  entry(
    "cut",
    { opening: { guide: { shape: "round", diameterMm: 37 } }, how: "byHand" },
    { ...about, at: day("2026-11-22") },
  ),
]);

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench([clinicEntry(), ...entries]);
});
afterEach(() => bench.close());

const staleFits = async () =>
  (await bench.store.staleFits(clinicId, { programVersion, protocolVersion: 0 }, 100)).length;

describe("fits", () => {
  it("are refreshed a few at a time while somebody waits, and all of them soon after", async () => {
    expect(await staleFits()).toBe(40);
    expect((await bench.get("/api/today")).status).toBe(200);
    expect(await staleFits()).toBeLessThan(40);
    for (let tries = 0; tries < 200 && (await staleFits()) > 0; tries += 1) await later(50);
    expect(await staleFits()).toBe(0);
  });

  it("that cannot be made hold up no list", async () => {
    bench.store.saveFit = () => Promise.reject(new Error("no room on the disk"));
    const { status, json } = await bench.get("/api/today");
    expect(status).toBe(200);
    expect(json.others + json.lines.length).toBe(40);
  });
});
