import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { chiSquareTail } from "./chiSquareTail.ts";
import { type RiskTable, sameDay } from "./riskTable.ts";

/** Whether groups differ in how long the seal holds. */
export interface LogRank {
  chi2: number;
  df: number;
  p: number;
  /** Failures seen in each group, and those expected if the groups did not differ, in the order given. */
  observed: number[];
  expected: number[];
}

/**
 * Log-rank test of two or more groups with the hypergeometric variance. Null where it says nothing: fewer
 * than two groups were at risk of any failure, or no failure happened while two groups were at risk.
 * @source Mantel 1966; Peto and Peto 1972; as R's survdiff with rho = 0
 */
export function logRank(groups: readonly RiskTable[]): LogRank | null {
  const observed = groups.map(({ events }) => events.reduce((sum, d) => sum + d, 0));
  const expected = groups.map(() => 0);
  const variance = Matrix.zeros(groups.length, groups.length);
  for (const { events, atRisk } of eachFailureDay(groups)) {
    const n = sumOf(atRisk);
    const d = sumOf(events);
    const spread = n > 1 ? (d * (n - d)) / (n - 1) : 0;
    groups.forEach((_, i) => {
      const share = atRisk[i]! / n;
      expected[i]! += d * share;
      groups.forEach((__, j) => {
        const covariance = share * ((i === j ? 1 : 0) - atRisk[j]! / n) * spread;
        variance.set(i, j, variance.get(i, j) + covariance);
      });
    });
  }
  const compared = expected.flatMap((e, i) => (e > 0 ? [i] : []));
  const df = compared.length - 1;
  if (df < 1) return null;
  // The differences add up to zero, so one group is redundant.
  const kept = compared.slice(1);
  const cholesky = new CholeskyDecomposition(variance.selection(kept, kept));
  if (!cholesky.isPositiveDefinite()) return null;
  const excess = Matrix.columnVector(kept.map((i) => observed[i]! - expected[i]!));
  const chi2 = excess.dot(cholesky.solve(excess));
  return { chi2, df, p: chiSquareTail(chi2, df), observed, expected };
}

interface FailureDay {
  events: number[];
  atRisk: number[];
}

/** Each day on which anybody failed, with every group's failures and numbers at risk. */
function* eachFailureDay(groups: readonly RiskTable[]): Generator<FailureDay> {
  const next = groups.map(() => 0);
  for (;;) {
    const day = Math.min(...groups.map(({ days }, g) => days[next[g]!] ?? Number.POSITIVE_INFINITY));
    if (day === Number.POSITIVE_INFINITY) return;
    const atRisk = groups.map((group, g) => group.atRisk[next[g]!] ?? 0);
    const events = groups.map((group, g) => {
      const row = next[g]!;
      if (row >= group.days.length || !sameDay(group.days[row]!, day)) return 0;
      next[g] = row + 1;
      return group.events[row]!;
    });
    if (events.some((d) => d > 0)) yield { events, atRisk };
  }
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
