/**
 * Wears counted by day: row i holds how many were still on just before `days[i]`, how many failed at it and
 * how many were lost to sight (censored) at it. Days ascend and are distinct. A wear censored on the day of
 * a failure counts as at risk of it.
 */
export interface RiskTable {
  days: Float64Array;
  atRisk: Float64Array;
  /** Whole numbers, or expected numbers where failures are known only to lie between two looks. */
  events: Float64Array;
  censored: Float64Array;
}

/**
 * Two days closer than this, in days or as a share of the mean, are one day: differences of clock times
 * that should be equal rarely are. @source the tie rule of R's survival package (aeqSurv).
 */
const tieTolerance = Math.sqrt(Number.EPSILON);

/** Whether two days count as one. */
export function sameDay(a: number, b: number): boolean {
  return Math.abs(a - b) <= tieTolerance * Math.max(1, Math.min(a, b));
}

/**
 * Counts failures and censorings by day. Both lists must ascend.
 * @param failures how many failed at each entry of `failedAt`; one each when left out
 */
export function riskTableOf(
  failedAt: Float64Array,
  censoredAt: Float64Array,
  failures?: Float64Array,
): RiskTable {
  const most = failedAt.length + censoredAt.length;
  const days = new Float64Array(most);
  const events = new Float64Array(most);
  const censored = new Float64Array(most);
  const gap = tieTolerance * Math.max(1, meanOfDistinct(failedAt, censoredAt));

  let row = -1;
  let previous = Number.NEGATIVE_INFINITY;
  let f = 0;
  let c = 0;
  while (f < failedAt.length || c < censoredAt.length) {
    const isFailure = c >= censoredAt.length || (f < failedAt.length && failedAt[f]! <= censoredAt[c]!);
    const day = isFailure ? failedAt[f]! : censoredAt[c]!;
    if (day - previous > gap) days[++row] = day;
    previous = day;
    if (isFailure) {
      events[row]! += failures ? failures[f]! : 1;
      f++;
    } else {
      censored[row]! += 1;
      c++;
    }
  }
  const rows = row + 1;
  return withAtRisk(days.subarray(0, rows), events.subarray(0, rows), censored.subarray(0, rows));
}

function withAtRisk(days: Float64Array, events: Float64Array, censored: Float64Array): RiskTable {
  const atRisk = new Float64Array(days.length);
  let stillOn = 0;
  for (let i = days.length - 1; i >= 0; i--) {
    stillOn += events[i]! + censored[i]!;
    atRisk[i] = stillOn;
  }
  return { days, atRisk, events, censored };
}

function meanOfDistinct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  let distinct = 0;
  let previous = Number.NaN;
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    const day = j >= b.length || (i < a.length && a[i]! <= b[j]!) ? a[i++]! : b[j++]!;
    if (day === previous) continue;
    previous = day;
    sum += day;
    distinct++;
  }
  return distinct === 0 ? 0 : sum / distinct;
}
