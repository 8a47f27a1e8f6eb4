import { risingRoot } from "./risingRoot.ts";
import { type WeibullLives, weibullCurvature } from "./weibullLikelihood.ts";

/** What is believed of a person's wear before any is seen: two independent normal laws. */
export interface WearPrior {
  /** Natural logarithm of the scale in days. */
  logScale: { mean: number; sd: number };
  logShape: { mean: number; sd: number };
}

/**
 * What is believed after: for each of a row of shapes, log scales at even steps and their weights, which
 * add up to 1 over all columns. So fine that sums over it stand for integrals.
 */
export interface PosteriorColumn {
  shape: number;
  firstLogScale: number;
  step: number;
  weights: Float64Array;
}

/** Laws this many times less likely (e to the power) than the likeliest are left out. */
const negligible = 16;
const shapes = 41;
const scales = 49;
const mostRounds = 100;

/**
 * Prior times the person's censored Weibull likelihood on a deterministic grid: a column for each log shape,
 * and in each column the log scales that matter given that shape. For one shape the log density of the log
 * scale is concave, so each column is found from its peak outwards.
 */
export function wearPosterior(lives: WeibullLives, prior: WearPrior): PosteriorColumn[] {
  const columns = columnsWorthKeeping(lives, prior);
  const most = Math.max(...columns.map(({ logMass }) => logMass));
  const total = columns.reduce((sum, { logMass }) => sum + Math.exp(logMass - most), 0);
  const logTotal = most + Math.log(total);
  return columns.map(({ shape, firstLogScale, step, logDensity }) => ({
    shape,
    firstLogScale,
    step,
    weights: logDensity.map((value) => Math.exp(value - logTotal) * step),
  }));
}

/** One log shape: the log scales that matter, evenly spaced, and how likely each is. */
interface Column {
  shape: number;
  firstLogScale: number;
  step: number;
  logDensity: Float64Array;
  /** Logarithm of the whole column's mass. */
  logMass: number;
}

/** Evenly spaced columns over the log shapes that matter. */
function columnsWorthKeeping(lives: WeibullLives, prior: WearPrior): Column[] {
  const column = (logShape: number) => columnAt(lives, prior, logShape);
  const { centre, step, most } = peakOfLogShape(column, prior);
  const edge = (direction: 1 | -1): number => {
    let at = centre;
    while (column(at).logMass > most - negligible) at += direction * step;
    return at;
  };
  const from = edge(-1);
  const width = (edge(1) - from) / (shapes - 1);
  return Array.from({ length: shapes }, (_, i) => column(from + i * width));
}

/**
 * Log shape of the heaviest column and a step over which mass falls by a little: scans the prior's range,
 * then closer round the best until its neighbours are of the same order.
 */
function peakOfLogShape(column: (logShape: number) => Column, { logShape }: WearPrior) {
  const half = 6;
  let centre = logShape.mean;
  let step = logShape.sd;
  for (let round = 0; round < mostRounds; round++) {
    const masses = Array.from({ length: 2 * half + 1 }, (_, i) => column(centre + (i - half) * step).logMass);
    const most = Math.max(...masses);
    const best = masses.indexOf(most);
    centre += (best - half) * step;
    if (best === 0 || best === 2 * half) continue;
    if (most - Math.min(masses[best - 1]!, masses[best + 1]!) < 2) return { centre, step, most };
    step /= half / 2;
  }
  throw new Error("the posterior has no peak");
}

function columnAt(lives: WeibullLives, prior: WearPrior, logShape: number): Column {
  const shape = Math.exp(logShape);
  const given = densityGivenShape(lives, prior, shape);
  const priorOfShape = -(((logShape - prior.logShape.mean) / prior.logShape.sd) ** 2) / 2;
  const peak = peakOfLogScale(given, prior);
  const firstLogScale = edgeOf(given, peak, -1);
  const step = (edgeOf(given, peak, 1) - firstLogScale) / (scales - 1);
  const logDensity = new Float64Array(scales).map(
    (_, i) => given(firstLogScale + i * step).density + priorOfShape,
  );
  const most = Math.max(...logDensity);
  const mass = logDensity.reduce((sum, value) => sum + Math.exp(value - most), 0) * step;
  return { shape, firstLogScale, step, logDensity, logMass: most + Math.log(mass) };
}

/** Log density of the log scale for one shape, with its first two derivatives. */
type Given = (logScale: number) => { density: number; slope: number; bend: number };

/**
 * Prior of the log scale times the likelihood at one shape. Failures seen and censored wears enter through
 * one sum over all wears, so that moving along the column costs nothing; only failures between two looks
 * are read again.
 */
function densityGivenShape(lives: WeibullLives, { logScale }: WearPrior, shape: number): Given {
  const none = new Float64Array(0);
  // Centred on the longest wear, so that a steep law loses no digits to days to the power of its shape.
  const centre = lives.logDays.at(-1) ?? 0;
  const atOnce = weibullCurvature({ ...lives, logAfter: none, logBy: none }, 0, shape, centre);
  const exposure = -atOnce.byEtaEta;
  const nothingSeen = { count: 0, sumLogDays: 0, earliest: Number.POSITIVE_INFINITY };
  const between: WeibullLives = { ...lives, logDays: none, total: none, seen: nothingSeen };
  return (value) => {
    const eta = shape * (value - centre);
    const hazard = exposure * Math.exp(-eta);
    const looks = weibullCurvature(between, eta, shape, centre);
    const distance = (value - logScale.mean) / logScale.sd;
    return {
      density:
        atOnce.logLikelihood +
        exposure -
        lives.seen.count * eta -
        hazard +
        looks.logLikelihood -
        distance ** 2 / 2,
      slope: shape * (hazard - lives.seen.count + looks.byEta) - distance / logScale.sd,
      bend: shape ** 2 * (looks.byEtaEta - hazard) - 1 / logScale.sd ** 2,
    };
  };
}

function peakOfLogScale(given: Given, { logScale }: WearPrior): number {
  const { mean, sd } = logScale;
  const upwards = given(mean).slope > 0;
  const away = upwards ? 1 : -1;
  let reach = sd;
  while (away * given(mean + away * reach).slope > 0) reach *= 2;
  return risingRoot(
    (value) => {
      const { slope, bend } = given(value);
      return { value: -slope, slope: -bend };
    },
    upwards ? mean : mean - reach,
    upwards ? mean + reach : mean,
  );
}

/** Where, on one side of the peak, the density has become negligible, but not far beyond. */
function edgeOf(given: Given, peak: number, direction: 1 | -1): number {
  const { density, bend } = given(peak);
  const fall = (distance: number) => density - given(peak + direction * distance).density;
  let inside = 0;
  let outside = Math.sqrt((2 * negligible) / -bend);
  while (fall(outside) < negligible) {
    inside = outside;
    outside *= 1.5;
  }
  for (let step = 0; step < 20 && fall(outside) > 1.5 * negligible; step++) {
    const middle = (inside + outside) / 2;
    if (fall(middle) < negligible) inside = middle;
    else outside = middle;
  }
  return peak + direction * outside;
}
