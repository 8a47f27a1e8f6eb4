import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openTestStore } from "../../../test/record/engine.ts";
import {
  change,
  clinicDetails,
  clinicEntry,
  clinicId,
  day,
  draft,
  instant,
  now,
  nurse,
  round,
  samplePerson,
  since,
} from "../../../test/record/samples.ts";
import { InputError } from "../../domain/fault.ts";
import type { RecordStore } from "../store/index.ts";
import { acceptDrafts } from "./index.ts";

let store: RecordStore;
beforeEach(async () => {
  store = await openTestStore();
  await store.append([clinicEntry()]);
});
afterEach(() => store.close());

const clinic = { clinicId, details: clinicDetails };
const accept = (...drafts: unknown[]) => acceptDrafts(store, clinic, drafts, { author: nurse, nowMs: now });

async function faults(...drafts: unknown[]): Promise<string[]> {
  const error = await accept(...drafts).catch((thrown) => thrown);
  if (!(error instanceof InputError)) throw new Error(`no faults: ${JSON.stringify(error)}`);
  return error.faults.map(({ path, problem }) => `${path} ${problem}`);
}

const { about, personId, stomaId } = samplePerson();
const person = draft("person", { name: "Edda Voss", birthDate: "1951-04-03" }, { personId });
const stoma = draft(
  "stoma",
  { type: "ileostomy", construction: "end", surgeryOn: since("2026-10-20") },
  about,
);
const measured = draft("measured", round(32), { ...about, at: day("2026-11-01") });

describe("drafts", () => {
  it("of a person, a stoma and its first reading come in together, with author and time of writing", async () => {
    const kept = await accept(person, stoma, measured);
    expect(kept.map(({ kind }) => kind)).toEqual(["person", "stoma", "measured"]);
    expect(kept[2]).toMatchObject({ clinicId, by: nurse, recordedAt: "2026-11-25T10:00:00.000Z", cursor: 4 });
  });

  it("sent again are the same entries, even where the record has moved on since", async () => {
    const kept = await accept(person, stoma, measured);
    await accept(
      draft(
        "stoma",
        { type: "ileostomy", construction: "end" },
        { ...about, corrects: { id: kept[1]!.id, as: "replace" }, reason: "unsure of the day" },
      ),
    );
    expect(await accept(person, stoma, measured)).toEqual(kept);
  });

  it("are taken all or none, and every fault is named by its place", async () => {
    const early = draft("measured", round(30), { ...about, at: day("2026-10-01") });
    const wild = draft("measured", round(500), about);
    expect(await faults(person, stoma, early, wild)).toEqual([
      "entries.2.at is before the surgery",
      "entries.3.body.shape.guide.diameterMm is too large",
    ]);
    expect((await store.counts(clinicId)).entries).toBe(1);
  });

  it.each([null, 7, "entry", [], undefined])("that are no object (%j) are refused", async (input) => {
    expect(await faults(input)).toEqual(["entries.0 is of the wrong type"]);
  });

  it("never say themselves who wrote them, when, or for which clinic", async () => {
    expect(await faults({ ...person, by: nurse, recordedAt: "2026-11-25T10:00:00Z", clinicId })).toEqual([
      "entries.0.clinicId is added by the bench",
      "entries.0.by is added by the bench",
      "entries.0.recordedAt is added by the bench",
    ]);
  });
});

describe("what a draft is about", () => {
  it("must be there: the person first, then the stoma", async () => {
    expect(await faults(stoma)).toEqual(["entries.0.personId names no person of this record"]);
    expect(await faults(person, measured)).toEqual(["entries.1.stomaId names no stoma of this person"]);
    expect(await faults(measured, person, stoma)).toEqual([
      "entries.0.personId names no person of this record",
    ]);
  });

  it("is never somebody else's stoma", async () => {
    await accept(person, stoma);
    const other = samplePerson();
    const stranger = draft("person", { name: "Ulf Brandt", identifier: "R-7" }, { personId: other.personId });
    const taken = draft(
      "stoma",
      { type: "colostomy", construction: "end" },
      { personId: other.personId, stomaId },
    );
    expect(await faults(stranger, taken)).toEqual(["entries.1.stomaId is a stoma of another person"]);
    const note = draft("noted", { text: "x" }, { personId: other.personId, stomaId });
    expect(await faults(stranger, note)).toEqual(["entries.1.stomaId is a stoma of another person"]);
  });

  it("includes what the same batch said before it: the surgery of a stoma, an entry to correct", async () => {
    const correction = draft("measured", round(33), {
      ...about,
      at: day("2026-11-01"),
      corrects: { id: measured.id as string, as: "replace" },
      reason: "misread",
    });
    expect(await accept(person, stoma, measured, correction)).toHaveLength(4);
  });

  it("cannot be moved to before it was used: surgery after the first measurement is refused", async () => {
    const [, made] = await accept(person, stoma, measured);
    const later = draft(
      "stoma",
      { type: "ileostomy", construction: "end", surgeryOn: since("2026-11-02") },
      { ...about, corrects: { id: made!.id, as: "replace" }, reason: "wrong day" },
    );
    expect(await faults(later)).toEqual([
      "entries.0.body.surgeryOn.date is after the stoma was first measured or fitted",
    ]);
  });

  it("may be used earlier than a surgery date that was taken back", async () => {
    await accept(person, stoma);
    const early = draft("changed", change(), { ...about, at: instant("2026-10-01T08:00:00Z") });
    expect(await faults(early)).toEqual(["entries.0.at is before the surgery"]);
    const unknown = draft(
      "stoma",
      { type: "ileostomy", construction: "end" },
      { ...about, corrects: { id: stoma.id as string, as: "replace" }, reason: "nobody knows" },
    );
    expect(await accept(unknown, early)).toHaveLength(2);
  });
});

describe("conflicts", () => {
  it("are the store's to tell: an id with other content, a correction that came second", async () => {
    await accept(person, stoma, measured);
    await expect(accept({ ...measured, body: round(40) })).rejects.toMatchObject({ code: "idReused" });
    const correct = (mm: number) =>
      draft("measured", round(mm), {
        ...about,
        corrects: { id: measured.id as string, as: "replace" },
        reason: "misread",
      });
    await accept(correct(33));
    await expect(accept(correct(34))).rejects.toMatchObject({ code: "alreadyCorrected" });
  });

  it("of two drafts under one id in one batch are refused too", async () => {
    await expect(
      accept(person, { ...person, body: { name: "Ulf", identifier: "R-1" } }),
    ).rejects.toMatchObject({ code: "idReused" });
  });
});
