import type { Kysely } from "kysely";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { engine, openTestStore } from "../../../test/record/engine.ts";
import {
  change,
  clinicEntry,
  clinicId,
  day,
  entry,
  instant,
  round,
  samplePerson,
  since,
} from "../../../test/record/samples.ts";
import type { Entry } from "../entry/index.ts";
import { ConflictError, onLatest, type RecordStore } from "./index.ts";
import type { RecordTables } from "./schema.ts";

let store: RecordStore;
beforeEach(async () => {
  store = await openTestStore();
});
afterEach(() => store.close());

const person = samplePerson();

function bare({ cursor: _cursor, ...rest }: Entry & { cursor: number }): Entry {
  return rest as Entry;
}

describe("appending", () => {
  it("keeps entries as they were written, in the order of commit", async () => {
    const kept = await store.append([clinicEntry(), ...person.entries]);
    expect(kept.map(({ cursor }) => cursor)).toEqual([1, 2, 3]);
    expect((await store.entriesOfPerson(clinicId, person.personId)).map(bare)).toEqual(person.entries);
  });

  it("again with the same content adds nothing: a retry is harmless", async () => {
    const first = await store.append(person.entries);
    const late = person.entries.map((one) => ({ ...one, recordedAt: "2026-11-25T11:00:00.000Z" }));
    expect(await store.append(late)).toEqual(first);
    expect((await store.counts(clinicId)).entries).toBe(2);
  });

  it("twice in one request counts once", async () => {
    await store.append([...person.entries, ...person.entries]);
    expect((await store.counts(clinicId)).entries).toBe(2);
  });

  it("under an id that is taken is refused, and the entry that has it is shown", async () => {
    const [first] = person.entries as [Entry<"person">];
    await store.append([first]);
    const other = { ...first, body: { ...first.body, name: "Somebody else" } };
    await expect(store.append([other])).rejects.toMatchObject({
      code: "idReused",
      existing: { id: first.id, body: { name: "Edda Voss" } },
    });
  });

  it("is all or none", async () => {
    const [first] = person.entries as [Entry<"person">];
    await store.append([first]);
    const other = { ...first, body: { ...first.body, name: "Somebody else" } };
    const fresh = entry("noted", { text: "called" }, { personId: person.personId });
    await expect(store.append([fresh, other])).rejects.toBeInstanceOf(ConflictError);
    expect(await store.entry(clinicId, fresh.id)).toBeNull();
  });

  it("keeps what stands beside the entries with them, or neither", async () => {
    const beside = async (trx: Kysely<RecordTables>) => {
      await trx.insertInto("mark").values({ name: "beside", value: "written" }).execute();
    };
    const broken = store.append(person.entries, {
      alongside: async (trx) => {
        await beside(trx);
        throw new Error("no");
      },
    });
    await expect(broken).rejects.toThrow("no");
    expect(await store.mark("beside")).toBeNull();
    expect(await store.counts(clinicId)).toEqual({ people: 0, active: 0, entries: 0 });
    await store.append(person.entries, { alongside: beside });
    expect(await store.mark("beside")).toBe("written");
  });

  it("of one clinic knows nothing of the ids of another", async () => {
    const otherClinic = "7d0c2f5e-9a41-4f0b-8c55-2f9b1f6f0a77";
    await store.append(person.entries);
    const [first, ...rest] = person.entries.map((one) => ({ ...one, clinicId: otherClinic })) as Entry[];
    const other = { ...first, body: { name: "Somebody else", identifier: "R-1" } } as Entry;
    await store.append([other, ...rest]);
    expect(await store.entry(otherClinic, other.id)).toMatchObject({ body: { name: "Somebody else" } });
    expect(await store.entry(clinicId, other.id)).toMatchObject({ body: { name: "Edda Voss" } });
    expect(await store.clinicIds()).toEqual([clinicId, otherClinic]);
    const { people } = await store.people(clinicId, { text: "", after: null, limit: 10 });
    expect(people.map(({ name }) => name)).toEqual(["Edda Voss"]);
    expect(await store.counts(otherClinic)).toEqual({ people: 1, active: 1, entries: 2 });
  });

  it("many rows at once tells how far it is", async () => {
    const many = Array.from({ length: 1200 }, (_, index) =>
      entry("changed", change(), {
        ...person.about,
        at: instant(new Date(Date.UTC(2026, 9, 21) + index * 600_000).toISOString()),
      }),
    );
    const seen: [number, number][] = [];
    await store.append([...person.entries, ...many], {
      onProgress: (done, total) => seen.push([done, total]),
    });
    expect(seen.at(-1)).toEqual([1202, 1202]);
    expect(seen.length).toBe(3);
  });
});

describe("correcting", () => {
  const measured = entry("measured", round(32), person.about);
  const correction = (diameterMm: number, target: string, as: "replace" | "retract" = "replace") =>
    entry("measured", round(diameterMm), {
      ...person.about,
      corrects: { id: target, as },
      reason: "misread",
    });

  beforeEach(async () => {
    await store.append([...person.entries, measured]);
  });

  async function row() {
    const { people } = await store.people(clinicId, { text: "", after: null, limit: 10 });
    return people[0]?.stomas[0];
  }

  it("leaves the first entry as it was and puts the new figure on the lists", async () => {
    await store.append([correction(34, measured.id)]);
    expect(await store.entry(clinicId, measured.id)).toMatchObject({ body: round(32) });
    expect(await row()).toMatchObject({ lastLongestMm: 34 });
  });

  it("a correction of the correction counts", async () => {
    const second = correction(34, measured.id);
    await store.append([second]);
    await store.append([correction(35, second.id)]);
    expect(await row()).toMatchObject({ lastLongestMm: 35 });
  });

  it("a second time is refused, and the first correction is shown", async () => {
    const first = correction(34, measured.id);
    await store.append([first]);
    await expect(store.append([correction(36, measured.id)])).rejects.toMatchObject({
      code: "alreadyCorrected",
      existing: { id: first.id },
    });
    await expect(store.append([correction(34, first.id), correction(36, first.id)])).rejects.toMatchObject({
      code: "alreadyCorrected",
    });
    expect(await row()).toMatchObject({ lastLongestMm: 34 });
  });

  it("by taking back makes it count nowhere, and it can be put back", async () => {
    const back = correction(32, measured.id, "retract");
    await store.append([back]);
    expect(await row()).toMatchObject({ lastLongestMm: null, lastMeasuredOn: null });
    await store.append([correction(33, back.id)]);
    expect(await row()).toMatchObject({ lastLongestMm: 33 });
  });

  it("a person who was entered by mistake is on no list any more", async () => {
    const [first] = person.entries as [Entry<"person">];
    await store.append([
      entry("person", first.body, {
        personId: person.personId,
        corrects: { id: first.id, as: "retract" },
        reason: "entered twice",
      }),
    ]);
    expect(await store.people(clinicId, { text: "", after: null, limit: 10 })).toEqual({
      people: [],
      next: null,
    });
    expect(await store.staleFits(clinicId, { programVersion: "x", protocolVersion: 9 }, 10)).toEqual([]);
    expect(await store.ownerOfStoma(clinicId, person.stomaId)).toBeNull();
  });
});

describe("entries that rest on what was read", () => {
  it("are not written where somebody has written about the person since, and are after reading again", async () => {
    await store.append(person.entries);
    const readThrough = (await store.entriesOfPerson(clinicId, person.personId)).at(-1)!.cursor;
    await store.append([entry("noted", { text: "meanwhile" }, { personId: person.personId })]);
    const resting = entry("noted", { text: "the first note" }, { personId: person.personId });
    const restsOn = { personId: person.personId, readThrough };
    await expect(store.append([resting], { restsOn })).rejects.toMatchObject({ code: "movedOn" });
    expect(await store.entry(clinicId, resting.id)).toBeNull();
    let tries = 0;
    await onLatest(async () => {
      tries += 1;
      const last = (await store.entriesOfPerson(clinicId, person.personId)).at(-1)!.cursor;
      if (tries === 1) await store.append([entry("noted", { text: "again" }, { personId: person.personId })]);
      await store.append([resting], { restsOn: { personId: person.personId, readThrough: last } });
    });
    expect(tries).toBe(2);
    expect(await store.append([resting], { restsOn })).toHaveLength(1);
  });

  it("wait for nobody who writes about another person", async () => {
    const other = samplePerson();
    const restsOn = { personId: person.personId, readThrough: 2 };
    await store.append([...person.entries, ...other.entries]);
    const resting = entry("noted", { text: "alone" }, { personId: person.personId });
    expect(await store.append([resting], { restsOn })).toHaveLength(1);
  });
});

describe("fits", () => {
  const version = { programVersion: "1", protocolVersion: 0 };
  const fit = {
    stomaId: person.stomaId,
    fitsUntilOn: "2026-12-01",
    fitsUntilLowerOn: "2026-11-28",
    fitsUntilUpperOn: null,
    ...version,
  };
  const stale = (about = version) => store.staleFits(clinicId, about, 10);

  it("are stale until made, and again after an entry, another protocol or another program", async () => {
    await store.append(person.entries);
    expect(await stale()).toEqual([{ personId: person.personId, stomaId: person.stomaId }]);
    await store.saveFit(clinicId, fit, 2);
    expect(await stale()).toEqual([]);
    expect(await stale({ ...version, protocolVersion: 1 })).toHaveLength(1);
    expect(await stale({ ...version, programVersion: "0" })).toHaveLength(1);
    await store.append([entry("measured", round(30), person.about)]);
    expect(await stale()).toHaveLength(1);
  });

  it("made while an entry came in stay stale", async () => {
    await store.append(person.entries);
    const read = (await store.entriesOfPerson(clinicId, person.personId)).at(-1)!.cursor;
    await store.append([entry("measured", round(30), person.about)]);
    await store.saveFit(clinicId, fit, read);
    expect(await stale()).toHaveLength(1);
  });
});

describe("people", () => {
  it("are found by name whatever the accents, and by record number", async () => {
    const names = ["Zoë Åkerblom", "José Núñez", "Søren Wałęsa", "Thùy Đặng", "Ines Groß"];
    await store.append(
      names.flatMap((name, index) => samplePerson({ name, identifier: `R-${7000 + index}` }).entries),
    );
    const found = async (text: string) =>
      (await store.people(clinicId, { text, after: null, limit: 10 })).people.map(({ name }) => name);
    expect(await found("zoe")).toEqual(["Zoë Åkerblom"]);
    expect(await found("AKER zoë")).toEqual(["Zoë Åkerblom"]);
    expect(await found("nunez")).toEqual(["José Núñez"]);
    expect(await found("soren walesa")).toEqual(["Søren Wałęsa"]);
    expect(await found("dang")).toEqual(["Thùy Đặng"]);
    expect(await found("gross")).toEqual(["Ines Groß"]);
    expect(await found("r-7001")).toEqual(["José Núñez"]);
    expect(await found("%")).toHaveLength(5);
    expect(await found("nobody")).toEqual([]);
  });

  it("of whom there are many come in pages, each once and in order, two of one name too", async () => {
    const count = engine === "sqlite" ? 5000 : 500;
    const named = (index: number) => samplePerson({ name: `Person ${index % (count / 2)}` });
    const many = Array.from({ length: count }, (_, index) => named(index));
    await store.append(many.flatMap(({ entries }) => entries.slice(0, 1)));
    const seen: string[] = [];
    let after: string | null = null;
    do {
      const page = await store.people(clinicId, { text: "person", after, limit: 133 });
      seen.push(...page.people.map(({ searchText, personId }) => `${searchText} ${personId}`));
      after = page.next;
    } while (after !== null);
    expect(new Set(seen).size).toBe(count);
    expect(seen).toEqual([...seen].sort());
  }, 30_000);

  it("who died or moved away, and those in hospital, are not counted as active", async () => {
    const [a, b, c, d] = [samplePerson(), samplePerson(), samplePerson(), samplePerson()];
    const event = (personId: string, what: "died" | "admitted" | "discharged" | "movedAway", on: string) =>
      entry("event", { what }, { personId, at: day(on) });
    await store.append([
      ...[a, b, c, d].flatMap(({ entries }) => entries),
      event(a.personId, "died", "2026-11-01"),
      event(b.personId, "admitted", "2026-11-01"),
      event(c.personId, "admitted", "2026-11-01"),
      event(c.personId, "discharged", "2026-11-03"),
      event(d.personId, "movedAway", "2026-11-01"),
    ]);
    expect(await store.counts(clinicId)).toMatchObject({ people: 4, active: 1 });
  });

  it("with two stomas keep the one that was not reversed", async () => {
    const one = samplePerson();
    const second = samplePerson().stomaId;
    await store.append([
      ...one.entries,
      entry(
        "stoma",
        { type: "urostomy", construction: "conduit", surgeryOn: since("2026-10-20") },
        { personId: one.personId, stomaId: second },
      ),
      entry("event", { what: "reversed" }, { ...one.about, at: day("2026-11-20") }),
    ]);
    const { people } = await store.people(clinicId, { text: "", after: null, limit: 10 });
    expect(people[0]?.standing).toBe("active");
    expect(Object.fromEntries(people[0]!.stomas.map(({ stomaId, standing }) => [stomaId, standing]))).toEqual(
      {
        [one.stomaId]: "ended",
        [second]: "active",
      },
    );
  });
});
