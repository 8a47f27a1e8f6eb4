import {
  cutAheadUntilDay,
  type FitsUntil,
  type HealingReading,
  healingCurve,
} from "../../src/domain/healing/index.ts";
import { measurementsOf } from "../../src/domain/healing/readings.ts";
import { riseOf } from "../../src/domain/healing/rising.ts";
import { defaultProtocol as protocol } from "../../src/domain/protocol/index.ts";
import {
  chanceFrom,
  type InventedStoma,
  type Measuring,
  measured,
  populations,
  trueUnfitDay,
} from "./healingPopulation.ts";

/** Truths beyond a limit, of the people who have one. */
export interface Misses {
  missed: number;
  of: number;
}

/** One cell of the calibration table. Shares are of people. */
export interface Coverage {
  /** True size inside the 80 % band, 7 and 14 days past the last reading. */
  size7: number;
  size14: number;
  /** Median width of the band 7 days ahead. */
  width7Mm: number;
  /**
   * True fits-until day inside its 80 % limits, half of the openings cut with a gap of 2 mm and half with 3 mm each
   * side. Where many equally likely curves never fail, or had failed by the first reading, no limit can cut that heap
   * in two, so more than 80 % lie inside even when all is right. The next two are free of that. People flagged as
   * rising are given no such day and are left out of all three.
   */
  fitsUntil: number;
  /** Of those whose lower limit is a day of its own: the opening truly fails sooner. Right: one in ten. */
  soonerThanLower: Misses;
  /** Of those whose upper limit is a day of its own: the opening truly fails later, or never. Right: one in ten. */
  laterThanUpper: Misses;
  /** Share for whom the opening (2 mm) truly fails by the last day advised to cut ahead for. */
  failsWhenAdvised: number;
  /** Nine in ten have no larger gap each side than this on that day. */
  gapWhenAdvisedMm: number;
}

/** Simulates people of one invented population and counts how often the truth lies within the limits. */
export function coverage(
  population: string,
  readings: number,
  method: Measuring,
  people: number,
  seed: number,
): Coverage {
  const chance = chanceFrom(seed);
  const outcomes = Array.from({ length: people }, (_, i) => {
    const stoma = populations[population]!(chance);
    const clearanceMm = i % 2 === 0 ? protocol.clearanceLiquidMm : protocol.clearanceFormedMm;
    return { clearanceMm, ...outcomeOf(stoma, measured(stoma, readings, method, chance), clearanceMm) };
  });
  const gap2 = outcomes.filter(({ clearanceMm }) => clearanceMm === protocol.clearanceLiquidMm);
  const lowerNamed = outcomes.filter(({ sooner }) => sooner !== null);
  const upperNamed = outcomes.filter(({ later }) => later !== null);
  const advised = gap2.filter(({ advisedGapMm }) => advisedGapMm !== null);
  return {
    size7: share(outcomes, ({ size7 }) => size7),
    size14: share(outcomes, ({ size14 }) => size14),
    width7Mm: quantile(
      outcomes.map(({ width7Mm }) => width7Mm),
      0.5,
    ),
    fitsUntil: share(
      outcomes.filter(({ fitsUntil }) => fitsUntil !== null),
      ({ fitsUntil }) => fitsUntil === true,
    ),
    soonerThanLower: { missed: lowerNamed.filter(({ sooner }) => sooner).length, of: lowerNamed.length },
    laterThanUpper: { missed: upperNamed.filter(({ later }) => later).length, of: upperNamed.length },
    failsWhenAdvised: share(advised, ({ failsWhenAdvised }) => failsWhenAdvised),
    gapWhenAdvisedMm: quantile(
      advised.map(({ advisedGapMm }) => advisedGapMm!),
      0.9,
    ),
  };
}

/** Cuts the opening from the last reading and asks everything. */
function outcomeOf(stoma: InventedStoma, readings: HealingReading[], clearanceMm: number) {
  const [firstDay, lastDay] = [readings[0]!.day, readings.at(-1)!.day];
  const horizonDay = lastDay + protocol.forecastHorizonDays;
  const openingMm = readings.at(-1)!.diameterMm + 2 * clearanceMm;
  const result = healingCurve({ readings, opening: { diameterMm: openingMm } });
  const trueDay = trueUnfitDay(stoma, openingMm, protocol.maxGapMm, firstDay, lastDay, horizonDay);
  const forecastOn = (day: number) => result.forecast!.find((forecast) => forecast.day === day)!;
  const holds = (day: number) =>
    forecastOn(day).lower80 <= stoma.sizeOn(day) && stoma.sizeOn(day) <= forecastOn(day).upper80;
  const { lower80 = null, upper80 = null } = result.fitsUntilDay ?? {};
  const isNamed = (day: number | null): day is number => day !== null && day > firstDay && day !== lastDay;
  const advisedDay = cutAheadUntilDay(result);
  return {
    size7: holds(lastDay + 7),
    size14: holds(lastDay + 14),
    width7Mm: forecastOn(lastDay + 7).upper80 - forecastOn(lastDay + 7).lower80,
    fitsUntil: result.fitsUntilDay && within(trueDay, result.fitsUntilDay),
    sooner: isNamed(lower80) ? trueDay < lower80 : null,
    later: isNamed(upper80) ? trueDay > upper80 : null,
    failsWhenAdvised: advisedDay !== null && trueDay <= advisedDay,
    advisedGapMm: advisedDay === null ? null : (openingMm - stoma.sizeOn(advisedDay)) / 2,
  };
}

/** A limit past the horizon is null, and stands for every day past it. */
function within(day: number, { lower80, upper80 }: FitsUntil): boolean {
  const never = Number.POSITIVE_INFINITY;
  return (lower80 ?? never) <= day && day <= (upper80 ?? never);
}

/** Share flagged as rising where the true size rises by `byMm` before the last reading (0: a false flag). */
export function flagged(
  readings: number,
  method: Measuring,
  byMm: number,
  people: number,
  seed: number,
): number {
  const chance = chanceFrom(seed);
  const results = Array.from({ length: people }, () => {
    const stoma = populations.littleShrink!(chance);
    return riseOf(measurementsOf(measured(stoma, readings, method, chance, byMm), protocol), protocol);
  });
  return share(results, (rise) => rise !== null);
}

function share<T>(among: readonly T[], of: (one: T) => boolean): number {
  return among.filter(of).length / among.length;
}

function quantile(values: number[], at: number): number {
  return values.sort((a, b) => a - b)[Math.floor(at * values.length)]!;
}
