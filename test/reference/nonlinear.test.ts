import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { healingCurve } from "../../src/domain/healing/index.ts";
import { leastSquaresFrom } from "../../src/domain/healing/leastSquares.ts";
import { studentQuantile } from "../../src/domain/healing/studentT.ts";

const reference = JSON.parse(readFileSync(new URL("data/02-nonlinear.json", import.meta.url), "utf8"));

interface Certified {
  days: number[];
  sizes: number[];
  starts: [number, number][];
  parameters: [number, number];
  standardErrors: [number, number];
  residualSd: number;
}

const misra = reference.nist.find((set: { id: string }) => set.id === "Misra1a");

/** y = b1·(1 − exp(−b2·x)) is the healing curve with start 0, final b1 and time constant 1/b2. */
const certified: Record<string, Certified> = {
  // NIST StRD Misra1a, certified values, as in data/02-nonlinear.json
  Misra1a: {
    days: misra.data.x,
    sizes: misra.data.y,
    starts: misra.starts,
    parameters: misra.certified.parameters,
    standardErrors: misra.certified.standard_errors,
    residualSd: misra.certified.residual_sd,
  },
  // NIST StRD BoxBOD (Box, Hunter & Hunter 1978, pp. 483-487), data and certified values as shipped in lmfit-py's
  // NIST_STRD folder, BoxBOD.dat; of the higher level of difficulty
  BoxBOD: {
    days: [1, 2, 3, 5, 7, 10],
    sizes: [109, 149, 149, 191, 213, 224],
    starts: [
      [1, 1],
      [100, 0.75],
    ],
    parameters: [2.1380940889e2, 5.4723748542e-1],
    standardErrors: [1.2354515176e1, 1.0455993237e-1],
    residualSd: 1.7088072423e1,
  },
};

/** Digits that agree, as the NIST counts them: −log10 of the relative difference. */
function digits(got: number, expected: number): number {
  return got === expected ? 16 : -Math.log10(Math.abs((got - expected) / expected));
}

describe.each(Object.entries(certified))("least squares on the NIST's %s", (_name, set) => {
  const points = set.days.map((day, i) => ({ day, mm: set.sizes[i]! }));

  it.each(set.starts)("reaches the certified values from the published start (%f, %f)", (b1, b2) => {
    const from = { startMm: 0, finalMm: b1, timeConstantDays: 1 / b2 };
    const fit = leastSquaresFrom(points, from, true)!;
    const rate = 1 / fit.curve.timeConstantDays;
    expect(digits(fit.curve.finalMm, set.parameters[0])).toBeGreaterThan(9);
    expect(digits(rate, set.parameters[1])).toBeGreaterThan(9);
    expect(digits(Math.sqrt(fit.covariance![0]![0]!), set.standardErrors[0])).toBeGreaterThan(9);
    expect(digits(Math.sqrt(fit.covariance![1]![1]!) * rate, set.standardErrors[1])).toBeGreaterThan(9);
  });

  it("reaches them without any start, as a healing curve with the start held", () => {
    const readings = points.map(({ day, mm }) => ({ day, diameterMm: mm }));
    const result = healingCurve({ readings, startMm: 0, prior: "none" });
    const rate = 1 / result.timeConstantDays!;
    expect(result.startMm).toBe(0);
    expect(digits(result.finalMm!, set.parameters[0])).toBeGreaterThan(9);
    expect(digits(rate, set.parameters[1])).toBeGreaterThan(9);
    expect(digits(result.standardErrors!.finalMm, set.standardErrors[0])).toBeGreaterThan(9);
    // the error of 1/b2 is the error of b2 over b2 squared
    expect(
      digits(result.standardErrors!.timeConstantDays * rate ** 2, set.standardErrors[1]),
    ).toBeGreaterThan(9);
    expect(digits(result.residualSdMm!, set.residualSd)).toBeGreaterThan(9);
    expect(result.forecast).not.toBeNull();
  });
});

describe.each(reference.asymptote as AsymptoteSet[])("least squares against R's nls: $id", (set) => {
  const readings = set.data.t.map((day, i) => ({ day, diameterMm: set.data.y[i]! }));
  const result = healingCurve({ readings, prior: "none" });

  it("gives R's parameters", () => {
    expect(digits(result.startMm!, set.parameters.a)).toBeGreaterThan(9);
    expect(digits(result.finalMm!, set.parameters.c)).toBeGreaterThan(9);
    expect(digits(result.timeConstantDays!, set.parameters.tau)).toBeGreaterThan(9);
  });

  it("gives R's standard errors and residual standard deviation", () => {
    expect(digits(result.standardErrors!.startMm, set.standard_errors.a)).toBeGreaterThan(8);
    expect(digits(result.standardErrors!.finalMm, set.standard_errors.c)).toBeGreaterThan(8);
    expect(digits(result.standardErrors!.timeConstantDays, set.standard_errors.tau)).toBeGreaterThan(8);
    expect(digits(result.residualSdMm!, set.residual_sd)).toBeGreaterThan(9);
  });

  it("gives R's sizes and, as 80 % limits by Student's t, R's errors of the mean on the days both give", () => {
    const reach = studentQuantile(0.9, set.df);
    const both = set.predictions.flatMap((prediction) => {
      const forecast = result.forecast!.find(({ day }) => day === prediction.t);
      return forecast ? [{ prediction, forecast }] : [];
    });
    expect(both.length).toBeGreaterThanOrEqual(2);
    for (const { prediction, forecast } of both) {
      expect(digits(forecast.mm, prediction.y)).toBeGreaterThan(9);
      expect(digits((forecast.upper80 - forecast.mm) / reach, prediction.se_mean)).toBeGreaterThan(7);
      expect(forecast.upper80 - forecast.mm).toBeCloseTo(forecast.mm - forecast.lower80, 10);
    }
  });

  it("takes Student's t at R's degrees of freedom", () => {
    const [lower, upper] = set.ci95_t_wald.c;
    const rReach = (upper - lower) / 2 / set.standard_errors.c;
    expect(digits(studentQuantile(0.975, set.df), rReach)).toBeGreaterThan(9);
  });
});

interface AsymptoteSet {
  id: string;
  data: { t: number[]; y: number[] };
  parameters: { a: number; c: number; tau: number };
  standard_errors: { a: number; c: number; tau: number };
  residual_sd: number;
  df: number;
  ci95_t_wald: { c: [number, number] };
  predictions: { t: number; y: number; se_mean: number }[];
}
