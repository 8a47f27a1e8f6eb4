import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { defaultProtocol } from "../../src/domain/protocol/index.ts";
import type { Wear } from "../../src/domain/wear/index.ts";

/** Uniform numbers in [0, 1). */
export type Random = () => number;

/** Small seeded generator (mulberry32), so that every run is the same run. */
export function seeded(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** How one simulated person's seals really fail. */
export interface Person {
  /** Chance that a seal has failed by then. */
  riskBy(days: number): number;
  /** The day at which that chance is `risk`. */
  dayOfRisk(risk: number): number;
}

/** Where simulated people come from. */
export interface Population {
  name: string;
  about: string;
  person(random: Random): Person;
}

const { priorScaleDays, priorScaleLogSd, priorShape, priorShapeLogSd } = defaultProtocol;
/** Median of a Weibull law of the prior's shape, over its scale. */
const medianOverScale = Math.log(2) ** (1 / priorShape);

export const populations: readonly Population[] = [
  {
    name: "matched",
    about: "people as the prior supposes them",
    person: (random) => weibullPerson(random, 1),
  },
  {
    name: "sooner",
    about: "every seal fails 10 % sooner than the prior supposes",
    person: (random) => weibullPerson(random, 0.9),
  },
  {
    name: "otherLaw",
    about: "lives are log-normal, not Weibull, with a median 10 % sooner",
    person: logNormalPerson,
  },
  {
    name: "muchSooner",
    about: "every seal fails 25 % sooner than the prior supposes",
    person: (random) => weibullPerson(random, 0.75),
  },
];

function weibullPerson(random: Random, sooner: number): Person {
  const shape = priorShape * Math.exp(priorShapeLogSd * normal(random));
  const scale = sooner * priorScaleDays * Math.exp(priorScaleLogSd * normal(random));
  return {
    riskBy: (days) => -Math.expm1(-((days / scale) ** shape)),
    dayOfRisk: (risk) => scale * (-Math.log1p(-risk)) ** (1 / shape),
  };
}

/** The spread of log lives is that of a Weibull law of the prior's shape: pi / (shape sqrt 6). */
function logNormalPerson(random: Random): Person {
  const mean = Math.log(0.9 * priorScaleDays * medianOverScale) + priorScaleLogSd * normal(random);
  const sd = (Math.PI / (priorShape * Math.sqrt(6))) * Math.exp(priorShapeLogSd * normal(random));
  return {
    riskBy: (days) => normalCdf((Math.log(days) - mean) / sd, 0, 1),
    dayOfRisk: (risk) => Math.exp(mean + sd * normalQuantile(risk, 0, 1)),
  };
}

function normal(random: Random): number {
  return normalQuantile((random() * 4294967296 + 0.5) / 4294967297, 0, 1);
}

/**
 * Wears as a log at home holds them: changed at the plan give or take 15 %, one in twenty-five for some other
 * reason before that; a seal that fails first is seen at once in two cases of three, else at the next look.
 */
export function simulatedWears(person: Person, count: number, plannedDays: number, random: Random): Wear[] {
  return Array.from({ length: count }, () => {
    const change = plannedDays * (0.85 + 0.3 * random());
    const other = random() < 0.04 ? change * random() : Number.POSITIVE_INFINITY;
    const fails = person.dayOfRisk(random());
    if (fails >= Math.min(change, other)) {
      return other < change ? { days: other, ended: "other" } : { days: change, ended: "planned" };
    }
    const kind = random();
    const ended = kind < 0.6 ? "leak" : kind < 0.8 ? "underBarrier" : "sealTrouble";
    if (random() < 2 / 3) return { days: fails, ended };
    const looksDays = 0.4;
    const sinceLook = looksDays * random();
    return {
      days: fails + looksDays - sinceLook,
      foundAfterDays: Math.max(0, fails - sinceLook),
      ended,
    };
  });
}
