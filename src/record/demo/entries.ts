import type { Entry, PlainDate } from "../entry/index.ts";
import { caseload } from "./caseload/index.ts";
import { chanceFrom } from "./chance.ts";
import { demoClinicId, demoNurse, tellClinic } from "./clinic.ts";
import { Pen } from "./pen.ts";
import { tell } from "./tell.ts";

/** What the demo is drawn from when nobody asks for another. */
export const demoSeed = 20261;

/**
 * The demo's whole record in the order in which it was written down: an invented clinic and invented people, every
 * day counted back from `today`, nothing on `today` itself. The same seed, day and zone give the same entries.
 */
export function demoEntries({
  seed = demoSeed,
  today,
  zone,
}: {
  seed?: number;
  today: PlainDate;
  zone: string;
}): Entry[] {
  const clinic = { clinicId: demoClinicId, author: demoNurse };
  const day = { today, zone };
  const first = new Pen(day, clinic, chanceFrom(seed));
  tellClinic(first);
  const told = caseload.flatMap((scenario, index) => {
    // A generator each: changing one person's scenario leaves everyone else as they were.
    const chance = chanceFrom(seed + 1 + index);
    const pen = new Pen(day, clinic, chance);
    tell(scenario, pen, chance);
    return pen.entries;
  });
  return [...first.entries, ...told].sort((a, b) => Date.parse(a.recordedAt) - Date.parse(b.recordedAt));
}
