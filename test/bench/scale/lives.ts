import { v7 as uuidv7 } from "uuid";
import type { Chance } from "../../../src/record/demo/chance.ts";
import { type BodyOf, type Entry, type Kind, kinds } from "../../../src/record/entry/index.ts";
import { clinicId, drainable, nurse, zone } from "../../record/samples.ts";

const dayMs = 86_400_000;

/** Entries about a settled person; with the few of new ones this makes 200 each. */
const settledEntries = 219;

export interface Life {
  personId: string;
  entries: Entry[];
  /** Where the healing fit of each stoma would say that its opening stops fitting, days from today; null: nowhere. */
  fitsUntilInDays: number | null;
}

const given = [
  "Ada",
  "Benno",
  "Carla",
  "Dorian",
  "Elif",
  "Fenna",
  "Goran",
  "Hanne",
  "Ivo",
  "Jarka",
  "Kaya",
  "Levin",
];
const family = [
  "Aldermoor",
  "Brandvold",
  "Castabene",
  "Dunkery",
  "Eskelund",
  "Falkenrath",
  "Gruber",
  "Hollis",
];

/**
 * One invented person with one stoma: one in ten in the first eight weeks after surgery, the others more than a year
 * on. Nine in ten were measured in time; every third or fourth day brings a change, up to today, one in ten of them
 * unplanned. Eight in a hundred have moved away.
 */
export function lifeOf(chance: Chance, number: number, nowMs: number): Life {
  const isNew = chance.share() < 0.1;
  const isEnded = chance.share() < 0.08;
  const ageDays = isNew ? chance.between(7, 56) : chance.between(580, 700);
  const write = writer(chance, nowMs);
  const startMs = nowMs - ageDays * dayMs;
  write("person", personBody(chance, number), startMs);
  write("stoma", { type: "ileostomy", construction: "end", surgeryOn: dayOf(startMs) }, startMs, true);
  write("fitted", drainable, startMs, true);
  const lastReadingMs = Math.max(startMs, nowMs - lastReadingDaysAgo(chance, isNew) * dayMs);
  const sizeMm = chance.between(26, 38);
  const spread = (count: number, endMs: number) =>
    Array.from({ length: count }, (_, index) => startMs + ((endMs - startMs) * (index + 1)) / count);
  const readings = isNew ? Math.ceil(ageDays / 7) : 24;
  for (const atMs of spread(readings, lastReadingMs)) write("measured", reading(sizeMm), atMs, true);
  for (const atMs of spread(isNew ? 1 : 9, lastReadingMs)) write("cut", opening(sizeMm + 4), atMs, true);
  write("cut", opening(sizeMm + lastGap(chance)), lastReadingMs, true);
  const note = { text: "Rang; all is well, the skin is calm." };
  for (const atMs of spread(isNew ? 2 : 12, nowMs)) write("noted", note, atMs);
  const most = isNew ? Math.ceil(ageDays / plannedDays) : settledEntries - write.entries.length;
  for (const { atMs, why } of changesBefore(nowMs, startMs, most, chance)) {
    write("changed", { what: "barrier", why }, atMs, true);
  }
  if (isEnded) write("event", { what: "movedAway" }, nowMs - chance.between(1, 60) * dayMs);
  const fitsUntilInDays = isNew ? Math.floor(chance.between(-4, 60)) : null;
  return { personId: write.personId, entries: write.entries, fitsUntilInDays };
}

/** One in ten is late. */
function lastReadingDaysAgo(chance: Chance, isNew: boolean): number {
  const everyDays = isNew ? 7 : 30;
  return chance.share() < 0.1
    ? chance.between(everyDays - 3, everyDays + 30)
    : chance.between(0, everyDays - 4);
}

/** Millimetres that the opening in use is larger than the last size: now and then too large or too small. */
function lastGap(chance: Chance): number {
  const share = chance.share();
  if (share < 0.02) return 9;
  return share < 0.025 ? -1 : 4;
}

function personBody(chance: Chance, number: number): BodyOf<"person"> {
  const name = `${chance.oneOf(given)} ${chance.oneOf(family)}`;
  return { name, birthDate: `19${30 + Math.floor(chance.between(0, 60))}-05-04`, identifier: `R-${number}` };
}

function reading(diameterMm: number): BodyOf<"measured"> {
  return { method: "guide", shape: { guide: { shape: "round", diameterMm } }, stepMm: 3.175 };
}

function opening(diameterMm: number): BodyOf<"cut"> {
  return { opening: { guide: { shape: "round", diameterMm } }, how: "byHand" };
}

const plannedDays = 3.4;

/** Changes by plan, and one in ten because of a leak before its time; from the last one back, given oldest first. */
function changesBefore(nowMs: number, startMs: number, most: number, chance: Chance) {
  const changes: { atMs: number; why: BodyOf<"changed">["why"] }[] = [];
  let atMs = nowMs - chance.between(0, plannedDays) * dayMs;
  while (changes.length < most && atMs > startMs) {
    const leaked = chance.share() < 0.1;
    changes.unshift({ atMs, why: leaked ? "leakPastEdge" : "planned" });
    atMs -= (leaked ? chance.between(0.4, plannedDays) : plannedDays) * dayMs;
  }
  return changes;
}

function dayOf(ms: number): { date: string; precision: "day" } {
  return { date: new Date(ms).toISOString().slice(0, 10), precision: "day" };
}

function writer(chance: Chance, nowMs: number) {
  const id = (msecs: number) => uuidv7({ msecs, random: sixteenBytes(chance) });
  const personId = id(nowMs);
  const stomaId = id(nowMs);
  const entries: Entry[] = [];
  const write = <K extends Kind>(kind: K, body: BodyOf<K>, ms: number, ofStoma = false) => {
    const atMs = Math.min(Math.floor(ms), nowMs);
    entries.push({
      id: id(atMs),
      clinicId,
      personId,
      stomaId: ofStoma ? stomaId : null,
      kind,
      schemaVersion: kinds[kind].version,
      at: kind === "changed" ? { instant: new Date(atMs).toISOString(), zone } : dayOf(atMs),
      recordedAt: new Date(atMs).toISOString(),
      by: nurse,
      body,
    } as unknown as Entry);
  };
  return Object.assign(write, { personId, entries });
}

function sixteenBytes(chance: Chance): Uint8Array {
  return new Uint8Array(Uint32Array.from({ length: 4 }, () => chance.share() * 2 ** 32).buffer);
}
