import { refuse } from "../fault.ts";
import type { Protocol } from "../protocol/index.ts";

export const readingMethods = ["guide", "tracing", "photo", "typed", "estimated"] as const;
export type ReadingMethod = (typeof readingMethods)[number];

/** One size across the base of the stoma, as it was recorded. */
export interface HealingReading {
  /** Days since surgery. */
  day: number;
  diameterMm: number;
  /** Standard deviation of the measuring, in mm; the protocol's for the method where it is not known. */
  sdMm?: number;
  /** Default: `guide` where a step is given, otherwise `typed`. */
  method?: ReadingMethod;
  /** Step between the rings of the guide used, in mm; the protocol's where it is not known. */
  stepMm?: number;
}

/**
 * What a reading says of the size: it lies in (aboveMm, upToMm], give or take a normal error of `sdMm`.
 * A size that was read off directly has `aboveMm === upToMm`.
 */
export interface Measurement {
  day: number;
  aboveMm: number;
  upToMm: number;
  sdMm: number;
}

/**
 * Readings as statements about the size, in order of day.
 * A guide reading r with step s says (r − s, r]: the ring below did not clear the base.
 */
export function measurementsOf(readings: readonly HealingReading[], protocol: Protocol): Measurement[] {
  if (readings.length === 0) refuse("readings", "is empty", readings, "at least 1 reading");
  return readings
    .map((reading, index) => measurementOf(reading, index, protocol))
    .sort((a, b) => a.day - b.day || a.upToMm - b.upToMm || a.aboveMm - b.aboveMm || a.sdMm - b.sdMm);
}

function measurementOf(reading: HealingReading, index: number, protocol: Protocol): Measurement {
  const { day, diameterMm, method = reading.stepMm === undefined ? "typed" : "guide" } = reading;
  const stepMm = method === "guide" ? (reading.stepMm ?? protocol.guideStepMm) : 0;
  const sdMm = reading.sdMm ?? protocol[`${method}SdMm`];
  for (const [field, value] of Object.entries({ day, diameterMm, stepMm, sdMm })) {
    if (!Number.isFinite(value)) refuse(`readings.${index}.${field}`, "is not finite", value, "a number");
  }
  return { day, aboveMm: diameterMm - stepMm, upToMm: diameterMm, sdMm };
}

/** Whether the measurement is a ring of a guide: an interval, not a point. */
export function isRing({ aboveMm, upToMm }: Measurement): boolean {
  return aboveMm < upToMm;
}
