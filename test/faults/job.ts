import { v7 } from "uuid";
import { chanceFrom } from "../../src/record/demo/chance.ts";
import type { Entry } from "../../src/record/entry/index.ts";
import { change, clinicEntry, clinicId, entry, instant, now, round, since } from "../record/samples.ts";

const entriesInAll = 2000;
const peopleInAll = 40;
const weekMs = 7 * 86_400_000;

/**
 * The same 2,000 entries for the same seed, in the batches in which they are written: whoever is killed on the way can
 * go on where the record stops.
 */
export function jobOf(seed: number): Entry[][] {
  const chance = chanceFrom(seed);
  const id = () => v7({ random: chance.bytes(16), msecs: now, seq: Math.floor(chance.share() * 2 ** 31) });
  const people = Array.from({ length: peopleInAll }, () => ({ personId: id(), stomaId: id() }));
  const batches: Entry[][] = [[{ ...clinicEntry(), id: id() }]];
  for (const [index, about] of people.entries()) {
    const details = { name: `Person ${index}`, identifier: `R-${index}` };
    const made = { type: "ileostomy", construction: "end", surgeryOn: since("2026-01-10") } as const;
    batches.push([
      entry("person", details, { id: id(), personId: about.personId }),
      entry("stoma", made, { ...about, id: id() }),
    ]);
  }
  for (let left = entriesInAll - batches.flat().length; left > 0; ) {
    const about = chance.oneOf(people);
    const size = Math.min(left, chance.oneOf([1, 1, 2, 3, 4]));
    const atMs = now - Math.floor(chance.share() * 30) * weekMs - Math.floor(chance.share() * weekMs);
    const at = instant(new Date(atMs).toISOString());
    batches.push(
      Array.from({ length: size }, (_, place) =>
        place % 2 === 0
          ? entry("changed", change("planned"), { ...about, id: id(), at })
          : entry("measured", round(30 + Math.floor(chance.share() * 9)), { ...about, id: id(), at }),
      ),
    );
    left -= size;
  }
  return batches;
}

export { clinicId, entriesInAll };
