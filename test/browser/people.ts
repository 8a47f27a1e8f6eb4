import { v4 as uuidv4, v7 as uuidv7 } from "uuid";
import type { At, Draft } from "../../src/record/entry/index.ts";

const zone = "Europe/London";
const dayMs = 86_400_000;

/** An instant so many days before now. */
export function daysAgo(days: number): At {
  return { instant: new Date(Date.now() - days * dayMs).toISOString(), zone };
}

/** A calendar date so many days before today. */
export function dateAgo(days: number): string {
  return new Date(Date.now() - days * dayMs).toISOString().slice(0, 10);
}

/** Entries that bring an invented person with an ileostomy of `day` days into the record. */
export function newPerson(name: string, { day = 20 } = {}) {
  const personId = uuidv4();
  const stomaId = uuidv4();
  const about = { schemaVersion: 1, personId, at: daysAgo(day - 1) };
  const drafts = [
    {
      ...about,
      id: uuidv7(),
      stomaId: null,
      kind: "person",
      body: { name, identifier: `T-${name.length}${Math.floor(Math.random() * 1e6)}` },
    },
    {
      ...about,
      id: uuidv7(),
      stomaId,
      kind: "stoma",
      body: { type: "ileostomy", construction: "end", surgeryOn: { date: dateAgo(day), precision: "day" } },
    },
  ] as Draft[];
  return { personId, stomaId, drafts };
}

/** A change of the barrier. */
export function change(about: { personId: string; stomaId: string }, days: number, why = "planned"): Draft {
  return {
    id: uuidv7(),
    schemaVersion: 1,
    kind: "changed",
    personId: about.personId,
    stomaId: about.stomaId,
    at: daysAgo(days),
    body: { what: "barrier", why },
  } as Draft;
}
