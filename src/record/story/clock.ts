import { dateOf, type PlainDate, sortMs } from "../entry/index.ts";
import type { StomaStory } from "./story.ts";

type Clocked = Pick<StomaStory, "details" | "detailsEntry" | "readings" | "systems">;

/**
 * The day the healing clock starts: surgery, or the first day the record knows of this stoma where nobody knows
 * when it was made. Never after the first reading: an approximate surgery date may stand later than that.
 */
export function clockStartOn({ details, detailsEntry, readings, systems }: Clocked): PlainDate {
  const made = details.surgeryOn?.date;
  const entries = [detailsEntry, ...readings.map(({ source }) => source), ...systems];
  const first = entries.reduce((a, b) => (sortMs(b.entry.at) < sortMs(a.entry.at) ? b : a));
  const start = made ?? dateOf(first.entry.at);
  const firstReading = readings[0]?.on;
  return firstReading !== undefined && firstReading < start ? firstReading : start;
}
