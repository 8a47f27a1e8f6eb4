import type { BodyOf, Construction, Happening, PouchingSystem, StomaType } from "../entry/index.ts";

/** Days are counted back from the day of the demo: 0 is today, 3 three days ago. */
export type DaysAgo = number;

/** An invented person and what the record is to tell of them. */
export interface Scenario {
  person: Omit<BodyOf<"person">, "birthDate" | "homeOn"> & { ageYears: number };
  homeSince?: DaysAgo;
  stomas: StomaScenario[];
  events?: { what: Happening; daysAgo: DaysAgo; stoma?: number; note?: string }[];
  notes?: { daysAgo: DaysAgo; text: string }[];
}

export interface StomaScenario {
  type: StomaType;
  construction: Construction;
  side: "right" | "left" | "middle";
  label?: string;
  /** Null when nobody knows. */
  surgery: { daysAgo: DaysAgo; precision?: "day" | "month" | "year" } | null;
  /** The clinic's record of this stoma begins here. */
  knownSince: DaysAgo;
  /** Entries stop here: the person died, the stoma was reversed, or nobody writes while in hospital. */
  until?: DaysAgo;
  size: SizeScenario;
  readings: ReadingScenario | null;
  /** Gap each side of what is cut; null: pre-cut or not cut by us. */
  clearanceMm: number | null;
  /** Readings after the last one that was cut from; 0 when the opening follows every change of size. */
  readingsSinceCut?: number;
  systems: [WornSystem, ...WornSystem[]];
  /** A change written down by mistake and taken back. */
  takenBack?: { daysAgo: DaysAgo; reason: string };
}

/** Longest extent of the base: from `startMm` at surgery toward `finalMm`. */
export interface SizeScenario {
  startMm: number;
  finalMm: number;
  timeConstantDays: number;
  /** Width over length; 1 is round. */
  widthShare?: number;
  tiltDeg?: number;
  /** Traced outlines are lobed by this share of the radius. */
  lobes?: number;
  heightMm: number;
  /** Grows by this much from then on, over a week. */
  rise?: { since: DaysAgo; mm: number };
}

export interface ReadingScenario {
  method: "guide" | "tracing";
  /** Step of the guide's rings. */
  stepMm?: number;
  everyDays: number;
  last: DaysAgo;
  /** One reading first written down wrong: how many before the last, and what was written. */
  slip?: { before: number; wrongMm: number; reason: string };
}

/** A system worn from `since` on, with how its seal holds and when the person plans to change. */
export interface WornSystem {
  system: PouchingSystem;
  since: DaysAgo;
  planDays: number;
  seal: Seal;
  /** Pouches changed between two barriers, a day. */
  pouchesADay?: number;
  note?: string;
}

/** How long the seal holds: Weibull, and the clock hours at which it gives way. */
export interface Seal {
  shape: number;
  scaleDays: number;
  weakHours?: readonly number[];
}
