import fc from "fast-check";
import type { BodyOf, Entry, Kind } from "../../src/record/entry/index.ts";
import { change, drainable, entry, instant, round, type SamplePerson } from "./samples.ts";

const dates = fc
  .integer({ min: 0, max: 30 })
  .map((after) => new Date(Date.UTC(2026, 9, 24) + after * 86_400_000));
const isoDay = dates.map((date) => date.toISOString().slice(0, 10));

/** A step in the life of one record: something is written about one of the people, or an entry is corrected. */
export const step = fc.record({
  person: fc.integer({ min: 0, max: 2 }),
  pick: fc.nat(),
  on: isoDay,
  minute: fc.integer({ min: 0, max: 1439 }),
  act: fc.oneof(
    fc.record({ kind: fc.constant("measured" as const), body: fc.integer({ min: 20, max: 60 }).map(round) }),
    fc.record({
      kind: fc.constant("cut" as const),
      body: fc.integer({ min: 20, max: 70 }).map(
        (diameterMm): BodyOf<"cut"> => ({
          opening: { guide: { shape: "round", diameterMm } },
          how: "byHand",
        }),
      ),
    }),
    fc.record({
      kind: fc.constant("changed" as const),
      body: fc
        .tuple(
          fc.constantFrom("barrier", "pouchOnly", "nightBag"),
          fc.constantFrom("planned", "leakPastEdge", "itchOrLifting"),
        )
        .map(([what, why]) => change(why, { what })),
    }),
    fc.record({ kind: fc.constant("fitted" as const), body: fc.constant(drainable) }),
    fc.record({
      kind: fc.constant("event" as const),
      body: fc.constantFrom("admitted", "discharged", "reversed", "died").map((what) => ({ what })),
    }),
    fc.record({ kind: fc.constantFrom("replace" as const, "retract" as const), body: fc.constant(null) }),
  ),
});

export type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

/** Entries of a random life; corrections name an entry that is not corrected yet. */
export function life(people: readonly SamplePerson[], steps: readonly Step[]): Entry[] {
  const entries = people.flatMap((person) => person.entries);
  const open = [...entries];
  for (const { person, pick, on, minute, act } of steps) {
    const about = people[person]!.about;
    const time = `${on}T${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}:00Z`;
    if (act.kind === "replace" || act.kind === "retract") {
      const [target] = open.splice(pick % open.length, 1);
      if (!target) continue;
      const { id: _id, corrects: _corrects, ...same } = target;
      const correction = entry(target.kind, target.body as BodyOf<Kind>, {
        personId: same.personId,
        stomaId: same.stomaId,
        at: act.kind === "replace" && "instant" in same.at ? instant(time) : same.at,
        corrects: { id: target.id, as: act.kind },
        reason: "misread",
      });
      entries.push(correction);
      open.push(correction);
      continue;
    }
    const fresh = entry(act.kind as Kind, act.body as BodyOf<Kind>, { ...about, at: instant(time) });
    entries.push(fresh);
    open.push(fresh);
  }
  return entries;
}
