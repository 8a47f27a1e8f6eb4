import type { Spans } from "./spans.ts";

/** A jump smaller than this share of all wears is none. */
const leastMass = 1e-9;
/** The likelihood is within this share of its maximum when no place would gain more from extra mass. */
const gainLeft = 1e-12;
const mostRounds = 2_000;

/**
 * Share of wears failing in each place, by two steps in turn: Turnbull's self-consistency, which never
 * loses, and an isotonic Newton step on the cumulative shares, which is quick near the end. The gradient
 * says when to stop, since it bounds how far the likelihood is from its maximum.
 * @source Turnbull 1976; Wellner and Zhan 1997 (the two in turn)
 */
export function selfConsistentMass(spans: Spans): Float64Array {
  const places = spans.places.length;
  let mass: Float64Array = new Float64Array(places).fill(1 / places);
  for (let round = 0; round < mostRounds; round++) {
    const next = redistribute(spans, mass);
    if (next.mostGain < gainLeft) break;
    mass = isotonicStep(spans, next.mass);
  }
  return withoutDust(mass);
}

/** One round of self-consistency, and the largest relative gain any place offered before it (0 at the end). */
function redistribute(spans: Spans, mass: Float64Array): { mass: Float64Array; mostGain: number } {
  const { weights, ratio } = spanRatios(spans, mass);
  let mostGain = 0;
  let pull = 0;
  const next = mass.map((value, j) => {
    pull += ratio[j]!;
    mostGain = Math.max(mostGain, pull / weights - 1);
    return (value * pull) / weights;
  });
  return { mass: next, mostGain };
}

/** Steps of Σ weight / (mass in the span) over the spans that cover each place: add up to get the pull. */
export function spanRatios(
  spans: Spans,
  mass: Float64Array,
  counts: (span: number) => boolean = () => true,
): { ratio: Float64Array; logLikelihood: number; weights: number } {
  const before = runningSum(mass);
  const ratio = new Float64Array(mass.length + 1);
  let logLikelihood = 0;
  let weights = 0;
  for (let i = 0; i < spans.weight.length; i++) {
    if (!counts(i)) continue;
    const covered = before[spans.last[i]! + 1]! - before[spans.first[i]!]!;
    const share = spans.weight[i]! / covered;
    ratio[spans.first[i]!]! += share;
    ratio[spans.last[i]! + 1]! -= share;
    logLikelihood += spans.weight[i]! * Math.log(covered);
    weights += spans.weight[i]!;
  }
  return { ratio, logLikelihood, weights };
}

/** One Newton step on the cumulative shares with the diagonal of the second derivatives, kept rising. */
function isotonicStep(spans: Spans, mass: Float64Array): Float64Array {
  const { slope, bend, logLikelihood } = cumulativeDerivatives(spans, mass);
  const inner = mass.length - 1;
  const target = new Float64Array(inner);
  let cumulative = 0;
  for (let j = 0; j < inner; j++) {
    cumulative += mass[j]!;
    target[j] = cumulative + slope[j]! / bend[j]!;
  }
  const rising = isotonic(target, bend);
  const aim = mass.map((_, j) => clamped(rising[j] ?? 1) - clamped(rising[j - 1] ?? 0));
  for (let length = 1; length > 1e-3; length /= 2) {
    const moved = mass.map((value, j) => value + length * (aim[j]! - value));
    if (spanRatios(spans, moved).logLikelihood > logLikelihood) return moved;
  }
  return mass;
}

function cumulativeDerivatives(spans: Spans, mass: Float64Array) {
  const before = runningSum(mass);
  // Entry j + 1 belongs to the cumulative share through place j; the first and last are fixed at 0 and 1.
  const slope = new Float64Array(mass.length + 1);
  const bend = new Float64Array(mass.length + 1);
  let logLikelihood = 0;
  for (let i = 0; i < spans.weight.length; i++) {
    const from = spans.first[i]!;
    const to = spans.last[i]! + 1;
    const covered = before[to]! - before[from]!;
    const weight = spans.weight[i]!;
    slope[to]! += weight / covered;
    slope[from]! -= weight / covered;
    bend[to]! += weight / covered ** 2;
    bend[from]! += weight / covered ** 2;
    logLikelihood += weight * Math.log(covered);
  }
  return { slope: slope.subarray(1), bend: bend.subarray(1), logLikelihood };
}

/** Weighted least-squares fit that never falls: pools neighbours that are out of order. */
function isotonic(values: Float64Array, weights: Float64Array): Float64Array {
  const pools: { value: number; weight: number; size: number }[] = [];
  values.forEach((value, i) => {
    let pool = { value, weight: weights[i]!, size: 1 };
    for (let last = pools.at(-1); last && last.value >= pool.value; last = pools.at(-1)) {
      const weight = last.weight + pool.weight;
      pool = {
        value: (last.value * last.weight + pool.value * pool.weight) / weight,
        weight,
        size: last.size + pool.size,
      };
      pools.pop();
    }
    pools.push(pool);
  });
  return Float64Array.from(pools.flatMap(({ value, size }) => new Array<number>(size).fill(value)));
}

function clamped(share: number): number {
  return Math.min(1, Math.max(0, share));
}

/** Mass before each place, and before the end. */
export function runningSum(mass: Float64Array): Float64Array {
  const before = new Float64Array(mass.length + 1);
  for (let j = 0; j < mass.length; j++) before[j + 1] = before[j]! + mass[j]!;
  return before;
}

function withoutDust(mass: Float64Array): Float64Array {
  return normalised(mass.map((value) => (value < leastMass ? 0 : value)));
}

function normalised(mass: Float64Array): Float64Array {
  const total = mass.reduce((sum, value) => sum + value, 0);
  return mass.map((value) => value / total);
}
