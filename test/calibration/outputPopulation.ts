import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { outputBelief } from "../../src/domain/emptying/belief.ts";
import type { Empty, EmptyingInput, StomaType } from "../../src/domain/emptying/index.ts";
import { waveSds } from "../../src/domain/emptying/rate.ts";
import { defaultProtocol as protocol } from "../../src/domain/protocol/index.ts";
import type { Random } from "./population.ts";

const quarterMs = 900_000;

/** How one simulated stoma really works, and how its person judges and logs. */
export interface OutputPerson {
  stomaType: StomaType;
  /** Mean over days, mL in each quarter of an hour of the day. */
  meanMl: number[];
  gushMl: number;
  dayLogSd: number;
  /** Fullness as judged over fullness as it is. */
  judging: number;
  capacityMl: number;
  /** Share of emptyings that never reach the log. */
  forgets: number;
}

export interface OutputPopulation {
  name: string;
  about: string;
  person(random: Random): OutputPerson;
}

export const outputPopulations: readonly OutputPopulation[] = [
  ...(["ileostomy", "colostomy", "urostomy"] as const).map((stomaType) => ({
    name: stomaType,
    about: `${stomaType}: output as the protocol supposes before any log`,
    person: (random: Random) => supposed(stomaType, random),
  })),
  {
    name: "more",
    about: "ileostomies with 30 % more output than supposed, in gushes half as large again",
    person: (random) => scaled(supposed("ileostomy", random), 1.3, 1.5),
  },
  {
    name: "meals",
    about: "ileostomies whose output follows three meals in sharp peaks, which the model's waves cannot draw",
    person: (random) => {
      const person = supposed("ileostomy", random);
      const dailyMl = person.meanMl.reduce((a, b) => a + b);
      return { ...person, meanMl: afterMeals(random).map((share) => share * dailyMl) };
    },
  },
  {
    name: "forgetful",
    about: "ileostomies as supposed, of which one emptying in ten never reaches the log",
    person: (random) => ({ ...supposed("ileostomy", random), forgets: 0.1 }),
  },
];

function supposed(stomaType: StomaType, random: Random): OutputPerson {
  const { dailyMl, gushMl, dayLogSd } = outputBelief(stomaType, protocol);
  const around = ({ middle, factor }: typeof dailyMl) => middle * factor ** normal(random);
  const waves = waveSds(protocol.clockLogSd).map((sd) => sd * normal(random));
  const ownDayLogSd = around(dayLogSd);
  const middleDay = around(dailyMl) / 96;
  const meanMl = Array.from({ length: 96 }, (_, quarter) => {
    const log = waves.reduce((sum, size, k) => {
      const angle = (2 * Math.PI * (Math.floor(k / 2) + 1) * (quarter + 0.5)) / 96;
      return sum + size * (k % 2 === 0 ? Math.cos(angle) : Math.sin(angle));
    }, 0);
    return middleDay * Math.exp(log + ownDayLogSd ** 2 / 2);
  });
  return {
    stomaType,
    meanMl,
    gushMl: around(gushMl),
    dayLogSd: ownDayLogSd,
    judging: Math.exp(protocol.fullnessBiasShare * normal(random)),
    capacityMl: stomaType === "urostomy" ? 350 : 400 + 300 * random(),
    forgets: 0,
  };
}

function scaled(person: OutputPerson, output: number, gush: number): OutputPerson {
  return { ...person, meanMl: person.meanMl.map((ml) => ml * output), gushMl: person.gushMl * gush };
}

/** Shares of the day's output: a base, and a peak of an hour and a half some two hours after each meal. */
function afterMeals(random: Random): number[] {
  const peaks = [9.5, 15, 21].map((hour) => hour + normal(random) / 2);
  const shares = Array.from({ length: 96 }, (_, quarter) => {
    const hour = (quarter + 0.5) / 4;
    return peaks.reduce((sum, peak) => sum + Math.exp(-(((hour - peak) / 1.1) ** 2) / 2), 0.15);
  });
  const total = shares.reduce((a, b) => a + b);
  return shares.map((share) => share / total);
}

/** A log and what then happened. */
export interface OutputLife {
  input: EmptyingInput;
  /** Hours from the last emptying until the volume had come. */
  hoursUntil(volumeMl: number): number;
  /** Volume that comes in a time after the last emptying, mL. */
  volumeBetween(fromMs: number, toMs: number): number;
}

/** Logs begin at midnight UTC of this day; the people live in UTC, whose clocks never change. */
const startMs = Date.UTC(2026, 0, 5);
const fullnesses = [0, 1 / 6, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4, 1];

/**
 * Output as a gamma process; emptied somewhere between a quarter and two thirds full while awake (half past six to
 * half past ten at night), before sleep, on waking, and in the night when over nine tenths. One emptying in ten is
 * measured, the others judged to the nearest of the usual steps, with the person's own bias and an error.
 */
export function outputLife(person: OutputPerson, days: number, random: Random): OutputLife {
  const quarters = Math.round(96 * (days + random()));
  const volumes = quartersOf(person, quarters + 5 * 96, random);
  const empties: Empty[] = [];
  let heldMl = 0;
  let target = targetOf(random);
  let last = 0;
  let emptied = false;
  for (let q = 0; q < quarters || !emptied; q++) {
    heldMl += volumes[q]!;
    const fullness = heldMl / person.capacityMl;
    const quarter = (q + 1) % 96;
    const awake = quarter >= 26 && quarter <= 90;
    const habit = quarter === 26 || quarter === 90;
    emptied = heldMl > 0.02 * person.capacityMl && (habit || fullness > (awake ? target : 0.9));
    if (!emptied) continue;
    const at = new Date(startMs + (q + 1) * quarterMs).toISOString();
    if (random() >= person.forgets) empties.push({ at, ...shown(person, heldMl, random) });
    heldMl = 0;
    last = q + 1;
    target = targetOf(random);
  }
  const lastMs = startMs + last * quarterMs;
  return {
    input: {
      stomaType: person.stomaType,
      empties,
      pouchCapacityMl: person.capacityMl,
      night: "pouch",
      lastEmptiedAt: new Date(lastMs).toISOString(),
      sleep: { from: "22:30", to: "06:30" },
      timeZone: "UTC",
    },
    hoursUntil: (volumeMl) => {
      let sum = 0;
      for (let q = last; q < volumes.length; q++) {
        if (sum + volumes[q]! >= volumeMl) return (q - last + (volumeMl - sum) / volumes[q]!) / 4;
        sum += volumes[q]!;
      }
      return Number.POSITIVE_INFINITY;
    },
    volumeBetween: (fromMs, toMs) =>
      volumes.slice((fromMs - startMs) / quarterMs, (toMs - startMs) / quarterMs).reduce((a, b) => a + b, 0),
  };
}

function targetOf(random: Random): number {
  return 0.25 + 0.4 * random();
}

function shown({ capacityMl, judging }: OutputPerson, heldMl: number, random: Random): Partial<Empty> {
  if (random() < 0.1)
    return { volumeMl: Math.max(0, heldMl * (1 + protocol.measuredErrorShare * normal(random))) };
  const looks = (heldMl / capacityMl) * judging * (1 + protocol.fullnessErrorShare * normal(random));
  const near = (a: number, b: number) => (Math.abs(a - looks) <= Math.abs(b - looks) ? a : b);
  return { fraction: fullnesses.reduce(near) };
}

function quartersOf({ meanMl, gushMl, dayLogSd }: OutputPerson, count: number, random: Random): number[] {
  let dayEffect = 1;
  return Array.from({ length: count }, (_, q) => {
    if (q % 96 === 0) dayEffect = Math.exp(dayLogSd * normal(random) - dayLogSd ** 2 / 2);
    return gushMl * gamma((meanMl[q % 96]! * dayEffect) / gushMl, random);
  });
}

/** @source Marsaglia & Tsang, ACM Trans Math Softw 2000;26:363, with their boost for shapes below 1 */
function gamma(shape: number, random: Random): number {
  if (shape < 1) return gamma(shape + 1, random) * random() ** (1 / shape);
  const d = shape - 1 / 3;
  for (;;) {
    const x = normal(random);
    const v = (1 + x / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(1 - random()) < x ** 2 / 2 + d - d * v + d * Math.log(v)) return d * v;
  }
}

function normal(random: Random): number {
  return normalQuantile((random() * 4294967296 + 0.5) / 4294967297, 0, 1);
}
