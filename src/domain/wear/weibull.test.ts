import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lifetimesOf } from "./lifetimes.ts";
import type { Wear } from "./wear.ts";
import { weibullAft } from "./weibullAft.ts";
import { type WeibullFit, weibullFit, weibullQuantile } from "./weibullFit.ts";
import { weibullCurvature, weibullLives } from "./weibullLikelihood.ts";

const leak = (days: number): Wear => ({ days, ended: "leak" });
const planned = (days: number): Wear => ({ days, ended: "planned" });
const found = (foundAfterDays: number, days: number): Wear => ({ days, foundAfterDays, ended: "leak" });

const everyKind = [
  found(1, 2),
  found(2, 2.5),
  found(0, 1.5),
  found(3, 4),
  leak(2.5),
  planned(4),
  planned(3),
  planned(5),
  found(2, 3),
  found(4, 4.5),
  leak(3.5),
  planned(3.5),
  found(6, 7),
];

const someWears = fc.array(
  fc.record({
    days: fc.double({ min: 0.1, max: 9, noNaN: true }),
    ended: fc.constantFrom("leak", "planned" as const),
  }),
  { minLength: 4, maxLength: 30 },
) as fc.Arbitrary<Wear[]>;

function fitOf(wears: readonly Wear[]): WeibullFit {
  const fit = weibullFit(lifetimesOf(wears));
  if (typeof fit === "string") throw new Error(fit);
  return fit;
}

describe("the Weibull fit", () => {
  it("agrees with R's survreg where leaks lie between two looks, since the start, or were seen", () => {
    // @source R 4.2.2, survival 3.5-3: survreg(Surv(l, r, type = "interval2") ~ 1)
    const { shape, scale, logLikelihood, covLogShapeLogScale } = fitOf(everyKind);
    expect(shape).toBeCloseTo(2.14097793129576, 8);
    expect(scale).toBeCloseTo(4.31179884885105, 8);
    expect(logLikelihood).toBeCloseTo(-21.49688906633131, 8);
    expect(covLogShapeLogScale[0][0]).toBeCloseTo(0.08127887110538731, 8);
    expect(covLogShapeLogScale[0][1]).toBeCloseTo(-0.00130380806203167, 8);
    expect(covLogShapeLogScale[1][1]).toBeCloseTo(0.02447369322353533, 8);
  });

  it("stretches its scale and quantiles with time and keeps its shape", () => {
    fc.assert(
      fc.property(someWears, fc.double({ min: 0.01, max: 100, noNaN: true }), (wears, factor) => {
        const fit = weibullFit(lifetimesOf(wears));
        const stretched = weibullFit(lifetimesOf(wears.map((w) => ({ ...w, days: w.days * factor }))));
        if (typeof fit === "string" || typeof stretched === "string") {
          expect(stretched).toBe(fit);
          return;
        }
        expect(stretched.shape / fit.shape).toBeCloseTo(1, 6);
        fit.quantiles.forEach(({ days, upper }, i) => {
          expect(stretched.quantiles[i]!.days / (days * factor)).toBeCloseTo(1, 5);
          expect(stretched.quantiles[i]!.upper / (upper * factor)).toBeCloseTo(1, 5);
        });
      }),
    );
  });

  it("is a maximum: no nearby law is likelier", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const lives = weibullLives(lifetimesOf(wears));
        const fit = weibullFit(lifetimesOf(wears));
        if (typeof fit === "string") return;
        for (const [k, s] of [
          [1.02, 1],
          [0.98, 1],
          [1, 1.02],
          [1, 0.98],
        ] as const) {
          const shape = fit.shape * k;
          const eta = shape * Math.log(fit.scale * s);
          expect(weibullCurvature(lives, eta, shape, 0).logLikelihood).toBeLessThan(fit.logLikelihood + 1e-9);
        }
      }),
    );
  });

  it("has the derivatives of its likelihood right", () => {
    const lives = weibullLives(lifetimesOf([...everyKind, leak(0)]));
    const h = 1e-5;
    const at = (eta: number, shape: number) => weibullCurvature(lives, eta, shape, 1.1);
    for (const [eta, shape] of [
      [0.3, 1.2],
      [1.5, 2.5],
      [-1, 0.7],
    ] as const) {
      const here = at(eta, shape);
      const slope = (key: "logLikelihood" | "byEta" | "byShape", de: number, ds: number) =>
        (at(eta + de * h, shape + ds * h)[key] - at(eta - de * h, shape - ds * h)[key]) / (2 * h);
      expect(slope("logLikelihood", 1, 0)).toBeCloseTo(here.byEta, 5);
      expect(slope("logLikelihood", 0, 1)).toBeCloseTo(here.byShape, 5);
      expect(slope("byEta", 1, 0)).toBeCloseTo(here.byEtaEta, 5);
      expect(slope("byEta", 0, 1)).toBeCloseTo(here.byEtaShape, 5);
      expect(slope("byShape", 0, 1)).toBeCloseTo(here.byShapeShape, 5);
    }
  });

  it("is refused, with the reason, where the likelihood has no finite maximum", () => {
    const refused = (wears: Wear[]) => weibullFit(lifetimesOf(wears));
    expect(refused([])).toBe("noFailure");
    expect(refused([planned(3), planned(4)])).toBe("noFailure");
    expect(refused([leak(3), leak(3), planned(3)])).toBe("noSpread");
    expect(refused([found(2, 4), found(3, 5), planned(3)])).toBe("noSpread");
    expect(refused([found(0, 2), found(0, 3), planned(5)])).toBe("noMaximum");
  });

  it("reads a seal that failed at 0 days as failed before the shortest wear above 0", () => {
    const atOnce = fitOf([leak(0), leak(2), planned(3), leak(4)]);
    const before = fitOf([found(0, 2), leak(2), planned(3), leak(4)]);
    expect(atOnce).toEqual(before);
  });

  it("learns nothing from a barrier that was taken off at once without a leak", () => {
    expect(fitOf([...everyKind, planned(0)])).toEqual(fitOf(everyKind));
  });

  it("has wider limits at 95 % than at 80 %, round the same day", () => {
    const fit = fitOf(everyKind);
    const wide = weibullQuantile(fit, 0.1);
    const narrow = weibullQuantile(fit, 0.1, 0.8);
    expect(wide.days).toBe(narrow.days);
    expect(wide.lower).toBeLessThan(narrow.lower);
    expect(wide.upper).toBeGreaterThan(narrow.upper);
  });
});

describe("how much longer one group lasts", () => {
  it("agrees with R's survreg on three groups", () => {
    // @source R 4.2.2, survival 3.5-3: survreg(Surv(t, e) ~ g)
    const fit = weibullAft(threeGroups().map((wears) => lifetimesOf(wears)));
    if (typeof fit === "string") throw new Error(fit);
    expect(fit.intercept).toBeCloseTo(1.4320508606449431, 8);
    expect(fit.effects[0]!.beta).toBeCloseTo(-0.2702749788235986, 8);
    expect(fit.effects[1]!.beta).toBeCloseTo(-0.0356900410227207, 8);
    expect(fit.sigma).toBeCloseTo(0.472688924412743, 8);
    expect(fit.logLikelihood).toBeCloseTo(-22.9664342074943, 8);
  });

  it("is refused where a group has no leak, or none outlasts a leak", () => {
    const of = (...groups: Wear[][]) => weibullAft(groups.map((wears) => lifetimesOf(wears)));
    expect(of([leak(2), leak(3)], [planned(3)])).toBe("groupWithoutFailure");
    expect(of([leak(2), leak(3)], [found(0, 3)])).toBe("groupWithoutFailure");
    expect(of([leak(2)], [leak(3), planned(2)])).toBe("noSpread");
  });
});

function threeGroups(): Wear[][] {
  const days = [2.1, 3.5, 3.5, 1.2, 3.4, 3.5, 2.8, 0.9, 3.5, 2.2, 1.8, 3.5, 2.6, 3.1, 1.1, 3.5, 2.9, 3.5];
  const failed = [1, 0, 0, 1, 1, 0, 1, 1, 0, 1, 1, 0, 1, 0, 1, 0, 1, 0];
  const wears = days.map((d, i) => (failed[i] === 1 ? leak(d) : planned(d)));
  return [wears.slice(0, 6), wears.slice(6, 12), wears.slice(12)];
}
