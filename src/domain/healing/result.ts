import type { Note } from "../note.ts";
import type { HealingReading } from "./readings.ts";

/** Sizes across the base over time, and the opening to judge against them. */
export interface HealingInput {
  /** Date of surgery; adds calendar dates to the days. */
  surgeryOn?: string;
  readings: HealingReading[];
  /** The opening in use. */
  opening?: { diameterMm: number };
  /** Bare skin allowed on each side; the protocol's `maxGapMm` where it is not given. */
  maxGapMm?: number;
  /** Size on the day of surgery, taken as exact. */
  startMm?: number;
  /** `weak` (default): readings weighed against a wide prior. `none`: plain least squares. */
  prior?: "weak" | "none";
}

/** Days since surgery, 80 % limits; null: not within the protocol's horizon. */
export interface FitsUntil {
  estimate: number | null;
  lower80: number | null;
  upper80: number | null;
}

/** Size across on one day with 80 % limits of the curve (a reading adds its own error on top). */
export interface ForecastDay {
  day: number;
  mm: number;
  lower80: number;
  upper80: number;
}

/** What is null is not supported by the readings; a note says why. All days count from surgery. */
export interface HealingResult {
  startMm: number | null;
  finalMm: number | null;
  timeConstantDays: number | null;
  /** Weak prior: posterior standard deviations. Least squares: s²·(JᵀJ)⁻¹. A held start has 0. */
  standardErrors: { startMm: number; finalMm: number; timeConstantDays: number } | null;
  /** Weak prior: day-to-day variation round the curve, apart from measuring. Least squares: s. */
  residualSdMm: number | null;
  /** Whole days from the first reading on, to some weeks past the last. */
  forecast: ForecastDay[] | null;
  settledOnDay: number | null;
  fitsUntilDay: FitsUntil | null;
  measureAgainOnDay: number;
  rising: boolean;
  /** The same days as calendar dates, where the date of surgery is known. */
  dates: HealingDates | null;
  notes: Note[];
}

export interface HealingDates {
  settledOn: string | null;
  fitsUntilOn: string | null;
  measureAgainOn: string;
}
