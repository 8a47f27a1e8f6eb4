import type { Protocol } from "../protocol/index.ts";
import { type OutputBelief, outputBelief } from "./belief.ts";
import { type Clock, clockIn, type Stretch, stretchesBetween } from "./clock.ts";
import type { EmptyingInput } from "./emptying.ts";
import { type Filling, fillingFrom } from "./filling.ts";
import { type Fills, fillsOf, isGasAlone } from "./fills.ts";
import { type Possible, posteriorOf } from "./posterior.ts";
import { type Days, daysOf } from "./rate.ts";

/** A person's output as their log leaves it. */
export interface OutputModel {
  clock: Clock;
  log: Fills;
  before: OutputBelief;
  /** Instants of the emptyings, ms. */
  emptiedMs: number[];
  /** Null where the log is too short to say anything. */
  known: {
    posterior: Possible[];
    days: Days;
    /** From the last emptying to the horizon. */
    filling: Filling;
    /** The same from another emptying, to `toMs` or the horizon. */
    fillingFrom(ms: number, toMs?: number): Filling;
  } | null;
}

/** The night ahead begins within a day, and ends within another. */
const nightEndsWithinMs = 2 * 86_400_000;

/** @param untilMs how far ahead will be asked about, where that is beyond the protocol's horizon */
export function outputModel(input: EmptyingInput, protocol: Protocol, untilMs = 0): OutputModel {
  const clock = clockIn(input.timeZone);
  const log = fillsOf(input, protocol);
  const before = outputBelief(input.stomaType, protocol);
  const emptiedMs = input.empties.filter((empty) => !isGasAlone(empty)).map(({ at }) => Date.parse(at));
  const unknown = { clock, log, before, emptiedMs, known: null };
  if (log.coveredHours < protocol.outputLeastHours) return unknown;
  const lastMs = Date.parse(input.lastEmptiedAt);
  const horizonMs = protocol.outputHorizonHours * 3_600_000;
  const fills = log.fills.map((fill) => ({
    ...fill,
    stretches: stretchesBetween(fill.fromMs, fill.toMs, clock),
  }));
  const ahead = stretchesBetween(
    lastMs,
    Math.max(lastMs + horizonMs, lastMs + nightEndsWithinMs, untilMs),
    clock,
  );
  const days = daysOf(
    [...fills.flatMap(({ stretches }) => stretches), ...ahead].map(({ date }: Stretch) => date),
  );
  const posterior = posteriorOf(fills, days, before, protocol);
  const from = (ms: number, toMs = ms + horizonMs) => fillingFrom(ms, toMs, posterior, days, clock);
  return { ...unknown, known: { posterior, days, filling: from(lastMs), fillingFrom: from } };
}
