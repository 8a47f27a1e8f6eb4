import { type Note, note } from "../note.ts";
import type { Protocol } from "../protocol/index.ts";
import { aboutTime, type Clock } from "./clock.ts";
import type { EmptyingInput } from "./emptying.ts";
import type { Filling } from "./filling.ts";

/** The coming night, or what is left of this one, with the pouch or night bag emptied as it begins. */
export interface Night {
  from: string;
  to: string;
  chanceOverHalf: number;
  chanceOverFull: number;
  /** When half is reached with a chance of a tenth; null where not before morning. */
  halfFromAt: string | null;
  /** Something to talk over with the nurse; null where there is nothing. */
  suggestion: Note | null;
}

type NightInput = Pick<
  EmptyingInput,
  "sleep" | "lastEmptiedAt" | "night" | "nightCapacityMl" | "pouchCapacityMl" | "stomaType"
>;

/** @param fillingFrom how the pouch fills from an emptying at bedtime */
export function nightAhead(
  input: NightInput,
  clock: Clock,
  fillingFrom: (fromMs: number, toMs: number) => Filling,
  protocol: Protocol,
): Night {
  const { fromMs, toMs } = nightAfter(input, clock);
  const capacityMl = input.night === "nightBag" ? input.nightCapacityMl! : input.pouchCapacityMl;
  const filling = fillingFrom(fromMs, toMs);
  const halfMl = capacityMl * protocol.emptyNowShare;
  const chanceOverHalf = filling.chanceBy(toMs, halfMl);
  const halfFromMs = filling.reachedAt(halfMl, 0.1);
  return {
    from: new Date(fromMs).toISOString(),
    to: new Date(toMs).toISOString(),
    chanceOverHalf,
    chanceOverFull: filling.chanceBy(toMs, capacityMl),
    halfFromAt: halfFromMs === null ? null : new Date(halfFromMs).toISOString(),
    suggestion:
      chanceOverHalf >= protocol.nightRiskTarget && halfFromMs !== null
        ? worthTalkingOver(input, chanceOverHalf, aboutTime(halfFromMs, clock), protocol)
        : null,
  };
}

/** The sleep that begins after the last emptying, or the rest of the one that it fell in. */
function nightAfter({ sleep, lastEmptiedAt }: NightInput, clock: Clock): { fromMs: number; toMs: number } {
  const lastMs = Date.parse(lastEmptiedAt);
  const fromMs = clock.next(sleep.from, lastMs);
  const toMs = clock.next(sleep.to, lastMs);
  return toMs < fromMs ? { fromMs: lastMs, toMs } : { fromMs, toMs: clock.next(sleep.to, fromMs) };
}

function worthTalkingOver(
  { night, stomaType }: NightInput,
  chanceOverHalf: number,
  from: string,
  { nightRiskTarget, emptyNowShare }: Protocol,
): Note {
  const bag = night === "nightBag";
  const ways = bag
    ? "emptying the night bag once in the night, or a larger one"
    : stomaType === "urostomy"
      ? "emptying once in the night, or a night drainage bag"
      : "emptying once in the night, a larger pouch for the night, or a night drainage bag";
  return note(
    "nightOverHalf",
    `In about ${Math.round(chanceOverHalf * 10)} nights of ten the ${bag ? "night bag" : "pouch"} would pass half before morning, from about ${from} on. Something to talk over with the nurse: ${ways}.`,
    { chanceOverHalf, from, vessel: night, nightRiskTarget, emptyNowShare },
  );
}
