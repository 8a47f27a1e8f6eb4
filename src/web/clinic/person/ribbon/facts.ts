import type { PlainDate } from "../../../../domain/calendar.ts";
import type { ForecastDay, HealingResult } from "../../../../domain/healing/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import { instantAt, type RecordedShape } from "../../../../record/entry/index.ts";
import {
  type CutOpening,
  clockStartOn,
  type Healing,
  plannedDays,
  type Reading,
  type StomaStory,
  wornDays,
} from "../../../../record/story/index.ts";
import { extentOf } from "../../../../record/story/readings.ts";
import { dayOfDate } from "./window.ts";

/** Which way across the stoma is drawn. */
export type Axis = "longest" | "narrowest";

/** A reading as a mark: a guide's reaches down by a ring step, a tracing's is a point. */
export interface ReadingMark {
  entryId: string;
  day: number;
  mm: number;
  stepMm: number | null;
}

/** An opening from one day to the next; `toDay` null while it is in use. */
export interface OpeningStep {
  entryId: string;
  fromDay: number;
  toDay: number | null;
  mm: number;
}

export interface ChangeMark {
  entryId: string;
  day: number;
  barrier: boolean;
  /** Sooner than planned, and not because somebody planned it. */
  early: boolean;
  leak: boolean;
}

/** Everything the ribbon draws, in days since the start of the healing clock. */
export interface RibbonFacts {
  clockStartOn: PlainDate;
  surgeryKnown: boolean;
  nowDay: number;
  /** Whether length and width differ anywhere, so that there is something to choose. */
  twoWays: boolean;
  readings: ReadingMark[];
  forecast: ForecastDay[] | null;
  openings: OpeningStep[];
  changes: ChangeMark[];
}

const dayMs = 86_400_000;

export function ribbonFacts(
  stoma: StomaStory,
  healing: Healing | null,
  axis: Axis,
  { protocol, zone, nowMs }: { protocol: Protocol; zone: string; nowMs: number },
): RibbonFacts {
  const start = clockStartOn(stoma);
  const startMs = Date.parse(instantAt(start, 0, 0, zone));
  const dayOfMs = (ms: number) => (ms - startMs) / dayMs;
  return {
    clockStartOn: start,
    surgeryKnown: stoma.details.surgeryOn?.precision === "day",
    nowDay: dayOfMs(nowMs),
    twoWays: hasTwoWays(stoma),
    readings: stoma.readings.map((reading) => readingMark(reading, axis, start, protocol)),
    forecast: curveOf(healing, axis)?.forecast ?? null,
    openings: stoma.openings.map((opening) => openingStep(opening, axis, start)),
    changes: changeMarks(stoma, protocol, dayOfMs, nowMs),
  };
}

/** The curve of one way across; a round stoma has one for both. */
export function curveOf(healing: Healing | null, axis: Axis): HealingResult | null {
  if (!healing) return null;
  return axis === "narrowest" ? (healing.narrowest ?? healing.longest) : healing.longest;
}

/** The way across in which the opening in use leaves most skin bare: that is the one to look at first. */
export function tellingAxis(stoma: StomaStory): Axis {
  const reading = stoma.readings.at(-1);
  const opening = stoma.openings.at(-1);
  if (!reading || !opening) return "longest";
  const [longest, narrowest] = extentOf(opening.shape);
  return narrowest - reading.narrowestMm > longest - reading.longestMm ? "narrowest" : "longest";
}

function hasTwoWays({ readings, openings }: StomaStory): boolean {
  const round = (shape: RecordedShape) => "guide" in shape && shape.guide.shape === "round";
  return readings.some(({ shape }) => !round(shape)) || openings.some(({ shape }) => !round(shape));
}

function readingMark(reading: Reading, axis: Axis, start: PlainDate, protocol: Protocol): ReadingMark {
  return {
    entryId: reading.entryId,
    day: dayOfDate(reading.on, start),
    mm: axis === "longest" ? reading.longestMm : reading.narrowestMm,
    stepMm: reading.method === "guide" ? (reading.stepMm ?? protocol.guideStepMm) : null,
  };
}

function openingStep(opening: CutOpening, axis: Axis, start: PlainDate): OpeningStep {
  const [longest, narrowest] = extentOf(opening.shape);
  return {
    entryId: opening.entryId,
    fromDay: dayOfDate(opening.from, start),
    toDay: opening.to === null ? null : dayOfDate(opening.to, start),
    mm: axis === "longest" ? longest : narrowest,
  };
}

function changeMarks(
  stoma: StomaStory,
  protocol: Protocol,
  dayOfMs: (ms: number) => number,
  nowMs: number,
): ChangeMark[] {
  const ended = new Map(stoma.wears.flatMap((wear) => (wear.endId ? [[wear.endId, wear] as const] : [])));
  return stoma.changes.map(({ entryId, atMs, source }) => {
    const { what, why } = source.entry.body;
    const wear = ended.get(entryId);
    const short = wear !== undefined && wornDays(wear, nowMs) < plannedDays(wear, protocol);
    return {
      entryId,
      day: dayOfMs(atMs),
      barrier: what === "barrier",
      early: why !== "planned" && short,
      leak: why === "leakPastEdge" || why === "leakUnderBarrier",
    };
  });
}
