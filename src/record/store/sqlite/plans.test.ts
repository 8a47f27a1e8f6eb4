import Database from "better-sqlite3";
import { type CompiledQuery, Kysely } from "kysely";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  change,
  clinicEntry,
  clinicId,
  entry,
  instant,
  now,
  round,
  samplePerson,
} from "../../../../test/record/samples.ts";
import type { StoredEntry } from "../../entry/index.ts";
import { clinicStory } from "../../story/index.ts";
import { todayList } from "../../today/index.ts";
import { limitsOn } from "../../today/limits.ts";
import { migrate } from "../migrations/index.ts";
import type { RecordTables } from "../schema.ts";
import { SqlStore } from "../sqlStore.ts";
import type { CaseloadSearch } from "../store.ts";
import { WritingFirstDialect } from "./dialect.ts";

const searches: CaseloadSearch[] = [
  "fitEnded",
  "tooSmall",
  "tooLarge",
  "settledDue",
  "newDue",
  "unplanned",
  "short",
];

let database: Database.Database;
let store: SqlStore;
let asked: CompiledQuery[] = [];
const person = samplePerson();

beforeAll(async () => {
  database = new Database(":memory:");
  const db = new Kysely<RecordTables>({
    dialect: new WritingFirstDialect({ database }),
    log: ({ query }) => {
      asked.push(query);
    },
  });
  await migrate(db);
  store = new SqlStore(db);
  await store.append([clinicEntry(), ...person.entries]);
});
afterAll(() => store.close());

/** How the engine would read its tables for everything that was asked meanwhile. */
async function plansOf(work: () => Promise<unknown>): Promise<string[]> {
  asked = [];
  await work();
  return asked
    .filter(({ sql }) => /^\s*(select|with|update|delete)/i.test(sql))
    .flatMap(({ sql, parameters }) => {
      const rows = database.prepare(`explain query plan ${sql}`).all(...parameters) as { detail: string }[];
      return rows.map(({ detail }) => `${detail}  <-  ${sql}`);
    });
}

const tables = "(entry|person_row|stoma_row|wear_row|wear|nth)";

/** A table that grows with the record, read from end to end, for a whole clinic, or for everybody active. */
const wholeTable = new RegExp(
  `^(SCAN ${tables}|SEARCH ${tables} .*\\(clinic_id=\\?( AND standing=\\?)?\\)  )`,
);

/** A page in the order of an index ends with the page. */
const inOrder = /^SEARCH person_row USING INDEX person_by_name/;

function dear(plans: readonly string[]): string[] {
  return plans.filter((plan) => wholeTable.test(plan) && !inOrder.test(plan));
}

describe("nothing that is asked every day reads a table from end to end", () => {
  it.each<[string, () => Promise<unknown>]>([
    ["adding an entry", () => store.append([entry("measured", round(31), person.about)])],
    [
      "adding a change",
      () =>
        store.append([
          entry("changed", change(), { ...person.about, at: instant(new Date(now).toISOString()) }),
        ]),
    ],
    [
      "correcting an entry",
      async () => {
        const last = (await store.entriesOfPerson(clinicId, person.personId)).at(
          -1,
        ) as StoredEntry<"changed">;
        const corrects = { id: last.id, as: "replace" } as const;
        await store.append([
          entry("changed", change("other"), { ...person.about, at: last.at, corrects, reason: "misread" }),
        ]);
      },
    ],
    ["a person's page", () => store.entriesOfPerson(clinicId, person.personId)],
    ["one entry", () => store.entry(clinicId, person.entries[0]!.id)],
    ["the clinic's own entries", () => store.clinicEntries(clinicId)],
    ["following the cursor", () => store.entriesAfter(clinicId, 2, 10)],
    ["the people by name", () => store.people(clinicId, { text: "", after: null, limit: 5 })],
    [
      "the next people by name",
      () => store.people(clinicId, { text: "ed", after: JSON.stringify(["a", "b"]), limit: 5 }),
    ],
    ["counts", () => store.counts(clinicId)],
    ["whose stoma it is", () => store.ownerOfStoma(clinicId, person.stomaId)],
    ["stale fits", () => store.staleFits(clinicId, { programVersion: "1", protocolVersion: 0 }, 5)],
    [
      "keeping a fit",
      () =>
        store.saveFit(
          clinicId,
          {
            stomaId: person.stomaId,
            fitsUntilOn: null,
            fitsUntilLowerOn: null,
            fitsUntilUpperOn: null,
            programVersion: "1",
            protocolVersion: 0,
          },
          3,
        ),
    ],
    [
      "the list of today",
      async () => todayList(store, clinicStory(await store.clinicEntries(clinicId))!, now, { limit: 5 }),
    ],
  ])("%s", async (_what, work) => {
    const plans = await plansOf(work);
    expect(plans.length).toBeGreaterThan(0);
    expect(dear(plans)).toEqual([]);
  });

  it.each(searches)("the search %s, from its beginning and from a place on", async (search) => {
    const limits = limitsOn("2026-11-25", clinicStory(await store.clinicEntries(clinicId))!);
    for (const level of ["sameDay", "nextContact"] as const) {
      const after = { level, waitedDays: 0, searchText: "a", stomaId: person.stomaId };
      const plans = await plansOf(async () => {
        await store.caseload(clinicId, search, limits, { after: null, limit: 5 });
        await store.caseload(clinicId, search, limits, { after, limit: 5 });
      });
      expect(dear(plans)).toEqual([]);
    }
  });
});
