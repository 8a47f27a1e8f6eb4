import { setTimeout as pause } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Entry, StoredEntry } from "../../src/record/entry/index.ts";
import { type OpenRecord, openRecord } from "../../src/record/open/index.ts";
import { projectionTables } from "../../src/record/store/rebuild.ts";
import { transact } from "../../src/record/store/transact.ts";
import { clinicEntry, clinicId, entry, round, samplePerson } from "../record/samples.ts";
import { emptyDatabase, inDatabase } from "./database.ts";

/** Two processes on one database: each has connections of its own. */
let url: string;
let one: OpenRecord;
let other: OpenRecord;
beforeAll(async () => {
  url = await emptyDatabase();
  [one, other] = await Promise.all([openRecord({ url }), openRecord({ url })]);
  await one.store.append([clinicEntry()]);
});
afterAll(() => Promise.all([one.close(), other.close()]));

function notes(count: number, about = samplePerson()): { person: Entry[]; notes: Entry[] } {
  const written = Array.from({ length: count }, (_, index) =>
    entry("noted", { text: `note ${index}` }, { personId: about.personId }),
  );
  return { person: about.entries, notes: written };
}

describe("two processes that write to one clinic", () => {
  it("commit in the order of their cursors: who follows the cursor misses nothing", async () => {
    const [mine, theirs] = [notes(60), notes(60)];
    const before = (await one.store.counts(clinicId)).entries;
    await one.store.append([...mine.person, ...theirs.person]);
    let writing = true;
    const read: StoredEntry[] = [];
    const following = (async () => {
      let cursor = 0;
      while (true) {
        const last = !writing;
        const page = await other.store.entriesAfter(clinicId, cursor, 7);
        read.push(...page);
        cursor = page.at(-1)?.cursor ?? cursor;
        if (last && page.length === 0) return;
      }
    })();
    const writers = [one, other].flatMap(({ store }, index) =>
      [mine, theirs][index]!.notes.map((note) => store.append([note])),
    );
    await Promise.all(writers);
    writing = false;
    await following;
    const { entries } = await one.store.counts(clinicId);
    expect(entries - before).toBe(4 + 120);
    expect(read.map(({ id }) => id)).toHaveLength(entries);
    expect(new Set(read.map(({ id }) => id)).size).toBe(entries);
  });

  it("write an entry once that both were sent", async () => {
    const { person, notes: sent } = notes(20);
    await one.store.append(person);
    const kept = await Promise.all(
      sent.flatMap((note) => [one.store.append([note]), other.store.append([note])]),
    );
    const cursors = new Set(kept.flat().map(({ cursor }) => cursor));
    expect(cursors.size).toBe(20);
    expect(await one.store.entriesOfPerson(clinicId, person[0]!.personId!)).toHaveLength(22);
  });

  it("correct an entry once: the second sees the first correction and loses nothing", async () => {
    const about = samplePerson();
    const measured = entry("measured", round(32), about.about);
    await one.store.append([...about.entries, measured]);
    const correction = (diameterMm: number) =>
      entry("measured", round(diameterMm), {
        ...about.about,
        corrects: { id: measured.id, as: "replace" },
        reason: "misread",
      });
    const [a, b] = [correction(34), correction(36)];
    const ended = await Promise.allSettled([one.store.append([a]), other.store.append([b])]);
    const [won, lost] = ended[0]!.status === "fulfilled" ? [a, b] : [b, a];
    expect(ended.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
    expect(ended.find(({ status }) => status === "rejected")).toMatchObject({
      reason: { code: "alreadyCorrected", existing: { id: won.id } },
    });
    const again = { ...lost, id: correction(0).id, corrects: { id: won.id, as: "replace" as const } };
    expect(await other.store.append([again as Entry])).toHaveLength(1);
  });

  it("keep a fit stale when an entry comes in while it is made", async () => {
    const about = samplePerson();
    await one.store.append([...about.entries, entry("measured", round(30), about.about)]);
    const fit = { stomaId: about.stomaId, fitsUntilOn: null, fitsUntilLowerOn: null, fitsUntilUpperOn: null };
    const version = { programVersion: "1", protocolVersion: 0 };
    const read = (await one.store.entriesOfPerson(clinicId, about.personId)).at(-1)!.cursor;
    let keeping: Promise<void> | undefined;
    await one.store.append([entry("measured", round(31), about.about)], {
      alongside: async () => {
        keeping = other.store.saveFit(clinicId, { ...fit, ...version }, read);
        await pause(200);
      },
    });
    await keeping;
    const stale = await one.store.staleFits(clinicId, version, 1000);
    expect(stale.map(({ stomaId }) => stomaId)).toContain(about.stomaId);
  });

  it("leave lists and counts as a rebuild makes them", async () => {
    const rows = async () =>
      Promise.all(
        projectionTables.map(async (table) =>
          (await one.db.selectFrom(table).selectAll().execute()).map(withoutFit).sort(),
        ),
      );
    const before = await rows();
    await one.store.rebuild();
    expect(await rows()).toEqual(before);
  });
});

/** A rebuild leaves fits to be made again. */
function withoutFit(row: object): string {
  return JSON.stringify(Object.entries(row).filter(([column]) => !column.startsWith("fit")));
}

describe("a transaction", () => {
  it("that meets another head-on is tried again, and both are kept", async () => {
    await one.store.setMark("left", "0");
    await one.store.setMark("right", "0");
    let waiting = 2;
    let go = () => {};
    const both = new Promise<void>((resolve) => {
      go = resolve;
    });
    const add = (record: OpenRecord, names: string[]) => {
      let tries = 0;
      return transact(record.db, async (trx) => {
        tries += 1;
        for (const [index, name] of names.entries()) {
          const { value } = await trx
            .selectFrom("mark")
            .select("value")
            .where("name", "=", name)
            .forUpdate()
            .executeTakeFirstOrThrow();
          await trx
            .updateTable("mark")
            .set({ value: String(Number(value) + 1) })
            .where("name", "=", name)
            .execute();
          if (index === 0 && tries === 1) {
            waiting -= 1;
            if (waiting === 0) go();
            await both;
          }
        }
        return tries;
      });
    };
    const tries = await Promise.all([add(one, ["left", "right"]), add(other, ["right", "left"])]);
    expect(tries.sort()).toEqual([1, 2]);
    expect([await one.store.mark("left"), await one.store.mark("right")]).toEqual(["2", "2"]);
  });

  it("that loses its connection is tried again where that is harmless, and nothing acknowledged is lost", async () => {
    const { person, notes: sent } = notes(60);
    await one.store.append(person);
    const cut = () =>
      inDatabase(
        url,
        `select pg_terminate_backend(pid) from pg_stat_activity
          where datname = current_database() and pid <> pg_backend_pid()`,
      );
    const kept: StoredEntry[] = [];
    for (const [index, note] of sent.entries()) {
      const writing = one.store.append([note]);
      if (index % 5 === 0) await cut();
      kept.push(...(await writing));
    }
    const there = await one.store.entriesOfPerson(clinicId, person[0]!.personId!);
    expect(there.slice(2)).toEqual(kept);
  });
});
