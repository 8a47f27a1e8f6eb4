import type { Note } from "../note.ts";
import type { CurveEstimate } from "./estimate.ts";
import type { UnfitDays } from "./fitsUntil.ts";
import * as notes from "./notes.ts";
import type { Measurement } from "./readings.ts";

/**
 * Whether the opening in use fits as things stand: by the last reading alone, which needs no curve, and by the
 * curve where there is one. Either may object.
 */
export function openingNotes(
  openingMm: number | undefined,
  maxGapMm: number,
  measurements: readonly Measurement[],
  estimate: CurveEstimate | null,
  unfit: UnfitDays | null,
): Note[] {
  if (openingMm === undefined) return [];
  const lastDay = measurements.at(-1)!.day;
  const stoppedOn = unfit?.limits.estimate ?? Number.POSITIVE_INFINITY;
  if (stoppedOn <= lastDay && estimate?.sizeOn) {
    const isSmall = estimate.sizeOn(lastDay).estimate > openingMm - maxGapMm;
    return [isSmall ? notes.openingTooSmall(stoppedOn) : notes.openingTooLarge(stoppedOn, maxGapMm)];
  }
  const last = measurements.filter(({ day }) => day === lastDay);
  if (last.some((measurement) => isInside(openingMm, measurement))) return [notes.openingTooSmall(lastDay)];
  if (last.some(({ upToMm }) => openingMm - upToMm > 2 * maxGapMm)) {
    return [notes.openingTooLarge(lastDay, maxGapMm)];
  }
  const isUnderRing = last.some(({ upToMm }) => openingMm < upToMm);
  const mayFailByCurve = unfit !== null && unfit.limits.lower80 <= lastDay;
  return isUnderRing || mayFailByCurve ? [notes.fitInDoubt(maxGapMm)] : [];
}

/** A direct size larger than the opening; or the ring of the opening's size, which did not clear the stoma. */
function isInside(openingMm: number, { aboveMm, upToMm }: Measurement): boolean {
  return aboveMm < upToMm ? aboveMm >= openingMm : upToMm > openingMm;
}
