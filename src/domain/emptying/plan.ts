import { type Note, note } from "../note.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { aboutTime, type Clock } from "./clock.ts";
import type { EmptyingInput } from "./emptying.ts";
import type { Filling } from "./filling.ts";
import { outputModel } from "./model.ts";
import { notesOn } from "./notes.ts";

export interface PlanInput extends EmptyingInput {
  /** Leaving and coming home. */
  outing: { from: string; to: string };
  /** A closed pouch is changed where a drainable one is emptied; drainable when left out. */
  pouch?: "drainable" | "closed";
}

/** One emptying (or change of a closed pouch) to plan for. */
export interface PlannedEmptying {
  at: string;
  /** From here on the chance of being over half is more than a tenth. */
  notAfter: string;
  why: Note;
}

export interface OutingPlan {
  /** Null where the log cannot tell: look at the pouch every two hours or so. */
  empty: PlannedEmptying[] | null;
  carry: Note[];
  notes: Note[];
}

/**
 * A day out: when to empty so that the pouch is about a third full and hardly ever over half, and what to carry.
 * Always before leaving; then when a third is as likely as not, or a tenth would be over half, whichever is first.
 */
export function outingPlan(input: PlanInput, protocol: Protocol = defaultProtocol): OutingPlan {
  const model = outputModel(input, protocol, Date.parse(input.outing.to));
  const notes = notesOn(model, null, protocol);
  if (!model.known) return { empty: null, carry: toCarry(input, null, model.clock, protocol), notes };
  const empty = emptyings(input, model.clock, model.known.fillingFrom, protocol);
  const carry = toCarry(input, empty.length - 1, model.clock, protocol);
  const hurried = empty.some(({ why }) => why.code === "fillsFast");
  return { empty, carry, notes: hurried ? [...notes, askForLarger()] : notes };
}

function emptyings(
  { outing, pouchCapacityMl }: PlanInput,
  clock: Clock,
  fillingFrom: (fromMs: number, toMs: number) => Filling,
  protocol: Protocol,
): PlannedEmptying[] {
  const toMs = Date.parse(outing.to);
  const apartMs = protocol.emptyingsApartHours * 3_600_000;
  let atMs = Date.parse(outing.from);
  const planned = [plannedAt(atMs, atMs, beforeLeaving())];
  for (;;) {
    const filling = fillingFrom(atMs, toMs);
    const thirdMs = filling.reachedAt(pouchCapacityMl * protocol.emptyAtShare, 0.5) ?? toMs;
    const halfMs = filling.reachedAt(pouchCapacityMl * protocol.emptyNowShare, 0.1) ?? toMs;
    const wantedMs = Math.min(thirdMs, halfMs);
    const isFast = wantedMs < atMs + apartMs;
    atMs = isFast ? atMs + apartMs : wantedMs;
    if (atMs >= toMs) return planned;
    const why = isFast ? fillsFast : thirdMs <= halfMs ? thirdLikely : halfNoLongerRare;
    planned.push(plannedAt(atMs, Math.max(atMs, halfMs), why(aboutTime(atMs, clock))));
  }
}

function plannedAt(atMs: number, notAfterMs: number, why: Note): PlannedEmptying {
  return { at: new Date(atMs).toISOString(), notAfter: new Date(notAfterMs).toISOString(), why };
}

function beforeLeaving(): Note {
  return note("beforeLeaving", "Empty before leaving.");
}

function thirdLikely(time: string): Note {
  return note("thirdLikely", `By about ${time} the pouch is as likely as not a third full.`, { time });
}

function halfNoLongerRare(time: string): Note {
  return note("halfNoLongerRare", `From about ${time} on it would be over half one time in ten or more.`, {
    time,
  });
}

function fillsFast(time: string): Note {
  return note("fillsFast", `The pouch may be half full before ${time}: look at it sooner.`, { time });
}

function askForLarger(): Note {
  return note(
    "askForLarger",
    "The pouch fills faster than anybody can plan for: talk over a larger one with the nurse.",
  );
}

/**
 * @param emptyings expected while out; null where nobody can say
 * @source what to carry: common practice, no source
 */
function toCarry(
  { outing, pouch, night, sleep }: PlanInput,
  emptyings: number | null,
  clock: Clock,
  protocol: Protocol,
): Note[] {
  const fromMs = Date.parse(outing.from);
  const toMs = Date.parse(outing.to);
  const days = (toMs - fromMs) / 86_400_000;
  const sets = protocol.spareChangeSets + Math.floor(days / protocol.carryBeyondDay);
  const sleepsAway = clock.next(sleep.from, fromMs) < toMs;
  return [
    note(
      "changeSets",
      `${sets} complete change ${sets === 1 ? "set" : "sets"}: barrier and pouch cut to size, what is worn with them, wipes, bags for waste.`,
      { sets },
    ),
    ...(pouch === "closed" ? [closedPouches(emptyings, protocol)] : []),
    ...(night === "nightBag" && sleepsAway ? [note("nightBag", "The night bag with its tube.")] : []),
    note("sizes", "The size of the opening and the names of what is worn, in writing."),
    note("whomToCall", "The clinic’s numbers, within hours and out of hours."),
  ];
}

function closedPouches(emptyings: number | null, { spareChangeSets }: Protocol): Note {
  if (emptyings === null)
    return note("closedPouches", "Closed pouches for as many changes as on other days, and a spare.", {
      pouches: null,
    });
  const pouches = emptyings + spareChangeSets;
  return note(
    "closedPouches",
    `${pouches} closed ${pouches === 1 ? "pouch" : "pouches"}: ${emptyings} to change and ${spareChangeSets} to spare.`,
    { pouches },
  );
}
