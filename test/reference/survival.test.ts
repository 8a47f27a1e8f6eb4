/**
 * Curves, limits, quantiles, log-rank tests and Weibull fits against R's survival package.
 * @source test/reference/data/01-survival.json: R 4.2.2, survival 3.5-3; conventions inside the file
 */
import { describe, expect, it } from "vitest";
import {
  type CurveInterval,
  compareGroups,
  curveQuantile,
  curveRows,
  hazardRows,
  lifetimesOf,
  logRank,
  restrictedMean,
  survivalCurve,
  type Wear,
  type WeibullFit,
  weibullAft,
  weibullFit,
  weibullQuantile,
} from "../../src/domain/wear/index.ts";
import { weibullLives } from "../../src/domain/wear/weibullLikelihood.ts";
import { fitWeibullRegression } from "../../src/domain/wear/weibullRegression.ts";
import reference from "./data/01-survival.json" with { type: "json" };

const curveTolerance = 1e-8;
const fitTolerance = 1e-6;

type Maybe = number | null;

/** The part of the file that is read here; both sorts of case share it. */
interface Block {
  n: number;
  events: number;
  curve: Record<string, Maybe>[];
  quantiles: Record<string, Maybe>[];
  rmst: { tau: number; rmst: number; se: number }[];
  weibull?: ReferenceWeibull;
}

interface ReferenceWeibull {
  shape: number;
  scale: number;
  loglik: number;
  cov_log_shape_log_scale: [[number, number], [number, number]];
  quantiles: { p_failed: number; time: number; ci95_logscale_lo: number; ci95_logscale_hi: number }[];
}

interface Case {
  data: Data;
  by_group?: Block[];
}

interface EdgeCase {
  id: string;
  data: Data;
  weibull: { exists: boolean; shape?: number; scale?: number; loglik?: number };
}

interface Data {
  time: number[];
  event: number[];
  group?: string[];
}

const intervals: { interval: CurveInterval; key: string }[] = [
  { interval: "log-log", key: "loglog" },
  { interval: "log", key: "log" },
  { interval: "plain", key: "plain" },
];

describe("leak-free curves agree with R's survfit", () => {
  for (const { name, wears, block } of everyBlock()) {
    for (const { interval, key } of intervals) {
      it(`${name}: curve with ${interval} limits`, () => {
        const rows = curveRows(survivalCurve(lifetimesOf(wears), interval));
        expect(rows).toHaveLength(block.curve.length);
        block.curve.forEach((expected, i) => {
          const row = rows[i]!;
          close(row.days, expected.time!, curveTolerance);
          expect([row.atRisk, row.events, row.censored]).toEqual([
            expected.n_risk,
            expected.n_event,
            expected.n_censor,
          ]);
          close(row.survival, expected.surv!, curveTolerance);
          close(row.se, expected.se_greenwood!, curveTolerance);
          close(row.lower, expected[`ci95_${key}_lo`]!, curveTolerance);
          close(row.upper, expected[`ci95_${key}_hi`]!, curveTolerance);
        });
      });

      it(`${name}: quantiles with ${interval} limits`, () => {
        const curve = survivalCurve(lifetimesOf(wears), interval);
        for (const expected of block.quantiles) {
          const { estimate, lower, upper } = curveQuantile(curve, expected.p_failed!);
          close(estimate, expected.time_R!, curveTolerance);
          close(lower, expected[`ci95_${key}_lo`]!, curveTolerance);
          close(upper, expected[`ci95_${key}_hi`]!, curveTolerance);
        }
      });
    }

    it(`${name}: cumulative hazard and restricted mean`, () => {
      const curve = survivalCurve(lifetimesOf(wears));
      hazardRows(curve).forEach(({ hazard, se }, i) => {
        close(hazard, block.curve[i]!.nelson_aalen!, curveTolerance);
        close(se, block.curve[i]!.nelson_aalen_se!, curveTolerance);
      });
      for (const { tau, rmst, se } of block.rmst) {
        const mean = restrictedMean(curve, tau);
        close(mean.days, rmst, curveTolerance);
        close(mean.se, se, curveTolerance);
      }
    });
  }
});

describe("Weibull fits agree with R's survreg", () => {
  for (const { name, wears, block } of everyBlock()) {
    const expected = block.weibull;
    if (!expected?.cov_log_shape_log_scale) continue;
    it(`${name}: shape, scale, likelihood, covariance and quantiles`, () => {
      const fit = weibullFit(lifetimesOf(wears)) as WeibullFit;
      close(fit.shape, expected.shape, fitTolerance);
      close(fit.scale, expected.scale, fitTolerance);
      close(fit.logLikelihood, expected.loglik, fitTolerance);
      fit.covLogShapeLogScale.flat().forEach((value, i) => {
        close(value, expected.cov_log_shape_log_scale.flat()[i]!, fitTolerance);
      });
      for (const q of expected.quantiles) {
        const { days, lower, upper } = weibullQuantile(fit, q.p_failed);
        close(days, q.time, fitTolerance);
        close(lower, q.ci95_logscale_lo, fitTolerance);
        close(upper, q.ci95_logscale_hi, fitTolerance);
      }
    });
  }

  for (const edge of reference.edge_cases as unknown as EdgeCase[]) {
    const wears = wearsOf(edge.data);
    if (edge.weibull.exists) {
      it(`edge case ${edge.id}: the maximum is found`, () => {
        const fit = weibullFit(lifetimesOf(wears)) as WeibullFit;
        close(fit.shape, edge.weibull.shape!, fitTolerance);
        close(fit.scale, edge.weibull.scale!, fitTolerance);
        close(fit.logLikelihood, edge.weibull.loglik!, fitTolerance);
      });
    } else if (!edge.data.time.includes(0)) {
      it(`edge case ${edge.id}: no finite maximum, and it says why`, () => {
        const why = edge.data.event.includes(1) ? "noSpread" : "noFailure";
        expect(weibullFit(lifetimesOf(wears))).toBe(why);
      });
    }
  }
});

describe("comparisons agree with R's survdiff and survreg", () => {
  for (const { id, data, logrank, weibull_aft } of reference.cases) {
    if (logrank) {
      it(`${id}: log-rank`, () => {
        const groups = logrank.groups.map((group) => wearsOf(data).filter((wear) => wear.group === group));
        const test = logRank(groups.map((wears) => lifetimesOf(wears).table))!;
        close(test.chi2, logrank.chi2, curveTolerance);
        expect(test.df).toBe(logrank.df);
        close(test.p, logrank.p, curveTolerance);
        logrank.expected.forEach((expected, g) => {
          close(test.expected[g]!, expected, curveTolerance);
        });
        expect(test.observed).toEqual(logrank.observed);
      });
    }
    if (weibull_aft) {
      it(`${id}: accelerated failure time`, () => {
        const x = weibull_aft.x;
        const cells = wearsOf(data).map((wear, i) => ({
          lives: weibullLives(lifetimesOf([wear])),
          x: [1, x[i]!],
        }));
        const fit = fitWeibullRegression(cells)!;
        close(fit.coefficients[0]!, weibull_aft.intercept, fitTolerance);
        close(fit.coefficients[1]!, weibull_aft.beta, fitTolerance);
        close(fit.sigma, weibull_aft.sigma, fitTolerance);
        close(fit.logLikelihood, weibull_aft.loglik, fitTolerance);
        fit.covariance.flat().forEach((value, i) => {
          close(value, weibull_aft.cov_intercept_beta_logsigma.flat()[i]!, fitTolerance);
        });
      });
    }
  }

  it("every pair of groups: difference of restricted means from R's means and errors", () => {
    for (const { data, by_group } of reference.cases as unknown as Case[]) {
      if (by_group?.length !== 2) continue;
      const [first, second] = by_group as [Block, Block];
      first.rmst.forEach(({ tau, rmst, se }, i) => {
        const { restrictedMeanDifference } = compareGroups(wearsOf(data), { tauDays: tau });
        const days = second.rmst[i]!.rmst - rmst;
        const reach = 1.959963984540054 * Math.hypot(se, second.rmst[i]!.se);
        close(restrictedMeanDifference!.days, days, curveTolerance);
        close(restrictedMeanDifference!.lower, days - reach, curveTolerance);
        close(restrictedMeanDifference!.upper, days + reach, curveTolerance);
      });
    }
  });

  it("leukaemia_6mp by group: time ratio with its limits", () => {
    const { data, weibull_aft } = reference.cases.find(({ id }) => id === "leukaemia_6mp")!;
    const byGroup = (group: string) => lifetimesOf(wearsOf(data).filter((wear) => wear.group === group));
    const fit = weibullAft([byGroup("control"), byGroup("6-MP")]);
    if (typeof fit === "string") throw new Error(fit);
    const { timeRatio, lower, upper, p } = fit.effects[0]!;
    close(timeRatio, weibull_aft!.time_ratio, fitTolerance);
    close(lower, weibull_aft!.time_ratio_ci95[0]!, fitTolerance);
    close(upper, weibull_aft!.time_ratio_ci95[1]!, fitTolerance);
    close(p, weibull_aft!.p_wald_beta, fitTolerance);
  });

  it("leukaemia_6mp: the log-rank chi-square printed in the literature, 16.79 (Gehan 1965 data)", () => {
    const { data } = reference.cases.find(({ id }) => id === "leukaemia_6mp")!;
    const groups = ["6-MP", "control"].map((g) => wearsOf(data).filter((wear) => wear.group === g));
    expect(logRank(groups.map((wears) => lifetimesOf(wears).table))!.chi2).toBeCloseTo(16.79, 2);
  });
});

/** Every set of wears in the file that has a curve: whole cases, their groups, edge cases. */
function everyBlock(): { name: string; wears: Wear[]; block: Block }[] {
  const cases = reference.cases.flatMap(({ id, data, overall, by_group }) => [
    { name: id, wears: wearsOf(data), block: overall as unknown as Block },
    ...(by_group ?? []).map((block) => ({
      name: `${id}, ${block.group}`,
      wears: wearsOf(data).filter(({ group }) => group === block.group),
      block: block as unknown as Block,
    })),
  ]);
  const edges = reference.edge_cases.flatMap(({ id, data, overall }) =>
    overall ? [{ name: `edge case ${id}`, wears: wearsOf(data), block: overall as unknown as Block }] : [],
  );
  return [...cases, ...edges];
}

function wearsOf({ time, event, group }: Data): Wear[] {
  return time.map((days, i) => ({ days, ended: event[i] === 1 ? "leak" : "planned", group: group?.[i] }));
}

/** Equal to a share of the value; null only with null. The file itself is written to 15 digits. */
function close(got: Maybe, expected: Maybe, tolerance: number): void {
  if (got === null || expected === null) expect(got).toBe(expected);
  else expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance * Math.abs(expected) + 1e-15);
}
