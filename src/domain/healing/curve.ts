/** d(t) = final + (start − final)·exp(−t / timeConstant): size across in mm, t in days since surgery. */
export interface Curve {
  startMm: number;
  finalMm: number;
  timeConstantDays: number;
}

export function sizeOnDay({ startMm, finalMm, timeConstantDays }: Curve, day: number): number {
  return finalMm + (startMm - finalMm) * Math.exp(-day / timeConstantDays);
}

/**
 * The day on which the curve passes a size: `Infinity` where it never does, negative where it did before surgery.
 * A curve that runs level passes nothing.
 */
export function dayOfSize({ startMm, finalMm, timeConstantDays }: Curve, sizeMm: number): number {
  const share = (sizeMm - finalMm) / (startMm - finalMm);
  return share > 0 && Number.isFinite(share) ? -timeConstantDays * Math.log(share) : Number.POSITIVE_INFINITY;
}

/** The day from which the size stays within `withinMm` of its final size; negative where it always was. */
export function settledDay({ startMm, finalMm, timeConstantDays }: Curve, withinMm: number): number {
  const swellingMm = Math.abs(startMm - finalMm);
  return swellingMm === 0 ? Number.NEGATIVE_INFINITY : timeConstantDays * Math.log(swellingMm / withinMm);
}
