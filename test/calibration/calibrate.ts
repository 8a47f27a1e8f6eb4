import { defaultProtocol } from "../../src/domain/protocol/index.ts";
import { type ChangeInterval, changeInterval } from "../../src/domain/wear/index.ts";
import { type Population, seeded, simulatedWears } from "./population.ts";

/** How well change intervals kept their word for one population and number of wears. */
export interface Calibration {
  population: string;
  plannedDays: number;
  wears: number;
  people: number;
  /** Share of people whose own day lay within the 80 % limits before they were held to any bound. */
  coverage: number;
  /** Share whose own day, held to the same bounds, lay within the limits as shown; of those given an interval. */
  coverageShown: number;
  /** Share of people given an interval; the others are told to review the fit. */
  advised: number;
  /** Mean true chance of a failing seal before the estimate, of those given an interval. */
  risk: number;
  /** The same at the estimate before bounds and floor, over everybody. */
  riskUnbounded: number;
  meanEstimateDays: number;
}

/**
 * Draws people, gives each a number of wears, asks for a change interval, and compares it with what is true
 * of that person.
 */
export function calibrate(
  population: Population,
  wearCount: number,
  options: { people: number; plannedDays: number; seed: number },
): Calibration {
  const random = seeded(options.seed);
  const { riskTarget, maxIntervalDays } = defaultProtocol;
  const { plannedDays } = options;
  // Without wears everybody gets the same answer.
  const fromPrior = wearCount === 0 ? changeInterval({ wears: [], plannedDays }) : null;
  let covered = 0;
  let coveredShown = 0;
  let advised = 0;
  let risk = 0;
  let riskUnbounded = 0;
  let estimates = 0;
  for (let i = 0; i < options.people; i++) {
    const person = population.person(random);
    const wears = simulatedWears(person, wearCount, plannedDays, random);
    const interval = fromPrior ?? changeInterval({ wears, plannedDays });
    const ownDay = person.dayOfRisk(riskTarget);
    if (within(ownDay, interval.unbounded)) covered++;
    riskUnbounded += person.riskBy(interval.unbounded.estimate!);
    if (interval.estimate === null) continue;
    const longest = Math.max(...wears.map(({ days }) => days));
    const bound = Math.min(maxIntervalDays, wearCount === 0 ? plannedDays : longest);
    if (within(Math.min(ownDay, bound), interval)) coveredShown++;
    advised++;
    risk += person.riskBy(interval.estimate);
    estimates += interval.estimate;
  }
  return {
    population: population.name,
    plannedDays,
    wears: wearCount,
    people: options.people,
    coverage: covered / options.people,
    coverageShown: coveredShown / advised,
    advised: advised / options.people,
    risk: risk / advised,
    riskUnbounded: riskUnbounded / options.people,
    meanEstimateDays: estimates / advised,
  };
}

function within(day: number, { lower, upper }: Pick<ChangeInterval, "lower" | "upper">): boolean {
  return day >= lower! && day <= upper!;
}
