import { type JumpCovariance, jumpCovariance } from "./jumpCovariance.ts";
import { selfConsistentMass, spanRatios } from "./jumpMass.ts";
import type { Lifetimes } from "./lifetimes.ts";
import { type RiskTable, riskTableOf } from "./riskTable.ts";
import { type Spans, spansOf } from "./spans.ts";

/**
 * The non-parametric maximum-likelihood estimate where some failures are known only to lie between two
 * looks, told as a risk table with expected numbers of failures: the product-limit formula on it gives the
 * estimate back. Each jump is put at the middle of the span in which the data place it.
 * @source Turnbull 1976 (self-consistency); places of the jumps as R's survfit draws them
 */
export function expectedFailures(lifetimes: Lifetimes): { table: RiskTable; jumps: JumpCovariance | null } {
  const spans = spansOf(lifetimes);
  const mass = selfConsistentMass(spans);
  const days = spans.places.map(({ from, to }) => (to === Number.POSITIVE_INFINITY ? to : (from + to) / 2));
  const expected = expectedByPlace(spans, mass);
  const finite = days.flatMap((day, j) => (day < Number.POSITIVE_INFINITY && mass[j]! > 0 ? [j] : []));
  const table = riskTableOf(
    Float64Array.from(finite, (j) => days[j]!),
    censoredDays(lifetimes.table),
    Float64Array.from(finite, (j) => expected[j]!),
  );
  return { table, jumps: jumpCovariance(spans, mass, days) };
}

/** Failures, not counting what censored wears may yet do, that the estimate expects at each place. */
function expectedByPlace(spans: Spans, mass: Float64Array): Float64Array {
  const { ratio } = spanRatios(spans, mass, (i) => spans.failed[i] === 1);
  let pull = 0;
  return mass.map((value, j) => {
    pull += ratio[j]!;
    return value * pull;
  });
}

function censoredDays({ days, censored }: RiskTable): Float64Array {
  const expanded = new Float64Array(censored.reduce((sum, count) => sum + count, 0));
  let at = 0;
  days.forEach((day, i) => {
    expanded.fill(day, at, at + censored[i]!);
    at += censored[i]!;
  });
  return expanded;
}
