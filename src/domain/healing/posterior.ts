import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import type { Protocol } from "../protocol/index.ts";
import { type Belief, type FittedBelief, fitBelief, logCorrection } from "./belief.ts";
import type { Curve } from "./curve.ts";
import { evenPoints } from "./evenPoints.ts";
import type { Measurement } from "./readings.ts";

/** One curve the person's stoma may be following, with the day-to-day variation round it. */
export interface CurveDraw extends Curve {
  wobbleMm: number;
}

/** Curves drawn before they are weighted, and the equally likely ones kept of them. */
const CANDIDATES = 2000;
const DRAWS = 1000;

/** Points of the grid over log time constant and log wobble; the prior is covered to 2.5 standard deviations. */
const TIME_POINTS = 14;
const WOBBLE_POINTS = 6;
const PRIOR_REACH = 2.5;

/** A grid is drawn closer round the points that matter until they fill it. */
const MOST_ZOOMS = 8;
const NEGLIGIBLE = 1e-3;
const FILLED = 0.6;

/** So wide that the level of the sizes is left to the readings alone. */
const LEVEL_SPREAD_MM = 1000;

/** Equally spaced points on a logarithmic axis. */
interface Axis {
  from: number;
  to: number;
  points: number;
}

/** One point of the grid with what is believed of start and shrink there. */
interface Node {
  timeConstantDays: number;
  wobbleMm: number;
  fitted: FittedBelief;
  logWeight: number;
}

/**
 * Equally likely curves, given the measurements and the protocol's weak prior: log-normal time constant and
 * wobble, normal shrinking, level left open (or `heldStartMm` taken as exact). Start and shrink are solved for
 * at each point of an adaptive grid over the other two; curves drawn from the whole are weighted by their exact
 * likelihood and resampled. The same input gives the same draws.
 */
export function drawCurves(
  measurements: readonly Measurement[],
  protocol: Protocol,
  heldStartMm?: number,
): CurveDraw[] {
  const originMm = heldStartMm ?? measurements[0]!.upToMm;
  const centred = measurements.map((measurement) => ({
    ...measurement,
    aboveMm: measurement.aboveMm - originMm,
    upToMm: measurement.upToMm - originMm,
  }));
  const prior: Belief = {
    startMm: 0,
    shrinkMm: protocol.shrinkMm,
    varStart: heldStartMm === undefined ? LEVEL_SPREAD_MM ** 2 : 0,
    covariance: 0,
    varShrink: protocol.shrinkSpreadMm ** 2,
  };
  const draws = resample(candidates(adaptiveGrid(centred, protocol, prior), centred));
  return draws.map((draw) => ({
    ...draw,
    startMm: draw.startMm + originMm,
    finalMm: draw.finalMm + originMm,
  }));
}

/** Evaluates the grid, narrows both axes to the points that matter, and again until they fill the grid. */
function adaptiveGrid(measurements: readonly Measurement[], protocol: Protocol, prior: Belief): Node[] {
  let time = priorAxis(protocol.timeConstantDays, protocol.timeConstantFactor, TIME_POINTS);
  let wobble = priorAxis(protocol.wobbleMm, protocol.wobbleFactor, WOBBLE_POINTS);
  for (let zoom = 0; ; zoom++) {
    const nodes = gridNodes(time, wobble, measurements, protocol, prior);
    const narrowerTime = narrowed(time, nodes, (node) => Math.log(node.timeConstantDays));
    const narrowerWobble = narrowed(wobble, nodes, (node) => Math.log(node.wobbleMm));
    if ((narrowerTime === time && narrowerWobble === wobble) || zoom === MOST_ZOOMS) return nodes;
    time = narrowerTime;
    wobble = narrowerWobble;
  }
}

function priorAxis(median: number, factor: number, points: number): Axis {
  const reach = PRIOR_REACH * Math.log(factor);
  return { from: Math.log(median) - reach, to: Math.log(median) + reach, points };
}

function gridNodes(
  time: Axis,
  wobble: Axis,
  measurements: readonly Measurement[],
  protocol: Protocol,
  prior: Belief,
): Node[] {
  return axisValues(time).flatMap((logTime) =>
    axisValues(wobble).map((logWobble) => {
      const fitted = fitBelief(measurements, Math.exp(logTime), Math.exp(logWobble), prior);
      const logPrior =
        logNormalKernel(logTime, protocol.timeConstantDays, protocol.timeConstantFactor) +
        logNormalKernel(logWobble, protocol.wobbleMm, protocol.wobbleFactor);
      return {
        timeConstantDays: Math.exp(logTime),
        wobbleMm: Math.exp(logWobble),
        fitted,
        logWeight: fitted.logEvidence + logPrior,
      };
    }),
  );
}

function axisValues({ from, to, points }: Axis): number[] {
  return Array.from({ length: points }, (_, i) => from + ((to - from) * i) / (points - 1));
}

/** Log density of a log-normal over the logarithm, up to a constant. */
function logNormalKernel(logValue: number, median: number, factor: number): number {
  const z = (logValue - Math.log(median)) / Math.log(factor);
  return -0.5 * z * z;
}

/** The axis cut down to its points of more than negligible weight and one beyond; itself where they fill it. */
function narrowed(axis: Axis, nodes: readonly Node[], coordinate: (node: Node) => number): Axis {
  const spacing = (axis.to - axis.from) / (axis.points - 1);
  const weights = shares(nodes.map((node) => node.logWeight));
  const marginal = new Float64Array(axis.points);
  nodes.forEach((node, i) => {
    marginal[Math.round((coordinate(node) - axis.from) / spacing)]! += weights[i]!;
  });
  const top = Math.max(...marginal);
  const first = marginal.findIndex((weight) => weight > NEGLIGIBLE * top);
  const last = marginal.findLastIndex((weight) => weight > NEGLIGIBLE * top);
  const from = axis.from + Math.max(0, first - 1) * spacing;
  const to = axis.from + Math.min(axis.points - 1, last + 1) * spacing;
  return to - from > FILLED * (axis.to - axis.from) ? axis : { ...axis, from, to };
}

interface Candidate extends CurveDraw {
  logWeight: number;
}

/** Curves spread evenly over the grid's belief, each weighted by its exact likelihood. */
function candidates(nodes: readonly Node[], measurements: readonly Measurement[]): Candidate[] {
  const upTo = cumulative(shares(nodes.map((node) => node.logWeight)));
  let at = 0;
  return evenPoints(CANDIDATES).map(([along, first, second]) => {
    while (upTo[at]! < along) at++;
    const { fitted, timeConstantDays, wobbleMm } = nodes[at]!;
    const { startMm, shrinkMm } = drawFrom(
      fitted.belief,
      normalQuantile(first, 0, 1),
      normalQuantile(second, 0, 1),
    );
    return {
      startMm,
      finalMm: startMm - shrinkMm,
      timeConstantDays,
      wobbleMm,
      logWeight: logCorrection(fitted, measurements, startMm, shrinkMm),
    };
  });
}

/** A point of the two-dimensional normal, from two independent standard normal values. */
function drawFrom(belief: Belief, first: number, second: number): { startMm: number; shrinkMm: number } {
  const sdShrink = Math.sqrt(belief.varShrink);
  const slope = belief.covariance / belief.varShrink;
  const sdStart = Math.sqrt(Math.max(0, belief.varStart - slope * belief.covariance));
  const shift = sdShrink * first;
  return { startMm: belief.startMm + slope * shift + sdStart * second, shrinkMm: belief.shrinkMm + shift };
}

/** Systematic resampling: each candidate is kept as often as its weight says, to the nearest whole draw. */
function resample(weighted: readonly Candidate[]): CurveDraw[] {
  const upTo = cumulative(shares(weighted.map((candidate) => candidate.logWeight)));
  let at = 0;
  return Array.from({ length: DRAWS }, (_, i) => {
    while (upTo[at]! < (i + 0.5) / DRAWS) at++;
    const { startMm, finalMm, timeConstantDays, wobbleMm } = weighted[at]!;
    return { startMm, finalMm, timeConstantDays, wobbleMm };
  });
}

/** Shares that add up to one, from logarithms of weights. */
function shares(logWeights: readonly number[]): number[] {
  const top = logWeights.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const weights = logWeights.map((logWeight) => Math.exp(logWeight - top));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/** Running sums; the last is exactly one, so that a search for any share below one ends. */
function cumulative(parts: readonly number[]): number[] {
  let sum = 0;
  return parts.map((part, i) => {
    sum += part;
    return i === parts.length - 1 ? 1 : sum;
  });
}
