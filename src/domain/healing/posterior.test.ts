import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, it } from "vitest";
import { defaultProtocol as protocol } from "../protocol/index.ts";
import { type Curve, sizeOnDay } from "./curve.ts";
import { limitsOf } from "./limits.ts";
import { logIntervalProbability } from "./normalInterval.ts";
import { drawCurves } from "./posterior.ts";
import { type HealingReading, type Measurement, measurementsOf } from "./readings.ts";

const rings = [38.1, 34.925, 34.925, 31.75].map((diameterMm, i) => ({
  day: 7 + 7 * i,
  diameterMm,
  method: "guide" as const,
}));
const mixed: HealingReading[] = [
  { day: 5, diameterMm: 41.275, method: "guide" },
  { day: 12, diameterMm: 36.2, method: "tracing" },
  { day: 19, diameterMm: 34.925, method: "guide" },
];

/** The same posterior by other means: a random walk over the four unknowns, straight from model and prior. */
function randomWalk(measurements: readonly Measurement[], steps: number, seed: number): Curve[] {
  const generator = xoroshiro128plus(seed);
  const share = () => Math.min(1 - 1e-12, Math.max(1e-12, uniformFloat64(generator)));
  const kernel = (value: number, centre: number, spread: number) => -0.5 * ((value - centre) / spread) ** 2;
  const logPosterior = ([level, shrink, logTime, logWobble]: number[]) => {
    const timeConstantDays = Math.exp(logTime!);
    const curve = { startMm: level! + shrink!, finalMm: level!, timeConstantDays };
    const fit = measurements.reduce((sum, { day, aboveMm, upToMm, sdMm }) => {
      const error = Math.sqrt(sdMm ** 2 + Math.exp(2 * logWobble!));
      const size = sizeOnDay(curve, day);
      return aboveMm === upToMm
        ? sum + kernel(upToMm, size, error) - Math.log(error)
        : sum + logIntervalProbability((aboveMm - size) / error, (upToMm - size) / error);
    }, 0);
    return (
      fit +
      kernel(shrink!, protocol.shrinkMm, protocol.shrinkSpreadMm) +
      kernel(logTime!, Math.log(protocol.timeConstantDays), Math.log(protocol.timeConstantFactor)) +
      kernel(logWobble!, Math.log(protocol.wobbleMm), Math.log(protocol.wobbleFactor))
    );
  };
  const strides = [1.2, 2.5, 0.7, 0.4];
  let at = [measurements.at(-1)!.upToMm, protocol.shrinkMm, Math.log(16), Math.log(0.7)];
  let logHere = logPosterior(at);
  const visited: Curve[] = [];
  for (let step = 0; step < steps; step++) {
    const to = at.map((value, i) => value + strides[i]! * normalQuantile(share(), 0, 1));
    const logThere = logPosterior(to);
    if (Math.log(share()) < logThere - logHere) [at, logHere] = [to, logThere];
    const [level, shrink, logTime] = at as [number, number, number];
    visited.push({ startMm: level + shrink, finalMm: level, timeConstantDays: Math.exp(logTime) });
  }
  return visited.slice(steps / 10);
}

describe.each([
  ["four guide readings", rings],
  ["two rings and a tracing", mixed],
])("the posterior of %s", (_what, readings) => {
  const measurements = measurementsOf(readings, protocol);
  const lastDay = measurements.at(-1)!.day;
  const draws = drawCurves(measurements, protocol);
  const walk = randomWalk(measurements, 200_000, 7);

  it.each([0, 7, 28])("gives the size %i days past the last reading as a random walk does", (ahead) => {
    const ours = limitsOf(draws.map((draw) => sizeOnDay(draw, lastDay + ahead)));
    const theirs = limitsOf(walk.map((curve) => sizeOnDay(curve, lastDay + ahead)));
    expect(Math.abs(ours.estimate - theirs.estimate)).toBeLessThan(0.15);
    expect(Math.abs(ours.lower80 - theirs.lower80)).toBeLessThan(0.25);
    expect(Math.abs(ours.upper80 - theirs.upper80)).toBeLessThan(0.25);
  });

  it("gives the time constant as a random walk does", () => {
    const ours = limitsOf(draws.map(({ timeConstantDays }) => Math.log(timeConstantDays)));
    const theirs = limitsOf(walk.map(({ timeConstantDays }) => Math.log(timeConstantDays)));
    expect(Math.abs(ours.lower80 - theirs.lower80)).toBeLessThan(0.2);
    expect(Math.abs(ours.upper80 - theirs.upper80)).toBeLessThan(0.2);
  });
});

it("the same readings give the same curves, bit for bit", () => {
  const measurements = measurementsOf(rings, protocol);
  expect(drawCurves(measurements, protocol)).toEqual(drawCurves(measurements, protocol));
});
