import { v4, v7 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicEntry, day, entry, round, samplePerson } from "../../../test/record/samples.ts";
import { type TestBench, testBench } from "../../../test/server/bench.ts";

const person = samplePerson();
const { personId, stomaId, about } = person;
const measured = entry("measured", round(32), { ...about, at: day("2026-11-24") });
const url = `/api/people/${personId}/stomas/${stomaId}/cutting-sheet`;
const order = () => ({ adviceId: v7(), measuredId: measured.id, clearanceMm: 2 });

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench([clinicEntry(), ...person.entries, measured]);
});
afterEach(() => bench.close());

describe("a cutting sheet", () => {
  it("comes as a PDF whose file name tells no name", async () => {
    const { status, headers, bytes } = await bench.post(url, order());
    expect([status, headers["content-type"], bytes.subarray(0, 5).toString()]).toEqual([
      200,
      "application/pdf",
      "%PDF-",
    ]);
    expect(headers["content-disposition"]).toBe('inline; filename="cutting-sheet-1-2026-11-25.pdf"');
    expect(headers["cache-control"]).toBe("no-store");
  });

  it("asked for again is the same sheet, and was given once", async () => {
    const same = order();
    const [a, b] = [await bench.post(url, same), await bench.post(url, same)];
    expect(b.bytes.equals(a.bytes)).toBe(true);
    const entries = await bench.store.entriesOfPerson(measured.clinicId, personId);
    expect(entries.filter(({ kind }) => kind === "advised")).toHaveLength(1);
  });

  it("asked for at the same moment as others gets its own number", async () => {
    const answers = await Promise.all([order(), order(), order()].map((one) => bench.post(url, one)));
    const names = answers.map(
      ({ headers }) => String(headers["content-disposition"]).match(/sheet-(\d)/)?.[1],
    );
    expect(names.sort()).toEqual(["1", "2", "3"]);
  });

  it.each([
    [{ clearanceMm: -1 }, "clearanceMm"],
    [{ clearanceMm: 7 }, "clearanceMm"],
    [{ clearanceMm: "2" }, "clearanceMm"],
    [{ measuredId: v4() }, "measuredId"],
    [{ measuredId: undefined }, "measuredId"],
    [{ adviceId: v4() }, "adviceId"],
    [{ paper: "A5" }, "paper"],
    [{ printScale: { x: 2, y: 1 } }, "printScale.x"],
    [{ personId }, "personId"],
  ])("with %j is refused, and the field is named", async (wrong, path) => {
    const { status, json } = await bench.post(url, { ...order(), ...wrong });
    expect([status, json.error.code, json.error.faults[0].path]).toEqual([422, "refused", path]);
  });

  it("of nobody, of no stoma, or under a taken id is refused", async () => {
    const other = (person: string, stoma: string) => `/api/people/${person}/stomas/${stoma}/cutting-sheet`;
    expect((await bench.post(other(v4(), stomaId), order())).json.error.code).toBe("noSuchPerson");
    expect((await bench.post(other(personId, v4()), order())).json.error.code).toBe("noSuchStoma");
    const taken = await bench.post(url, { ...order(), adviceId: measured.id });
    expect([taken.status, taken.json.error.code]).toEqual([409, "idReused"]);
    expect(taken.json.error.existing.kind).toBe("measured");
  });
});
