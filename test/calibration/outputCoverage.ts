import { emptying, type Reached } from "../../src/domain/emptying/index.ts";
import { defaultProtocol as protocol } from "../../src/domain/protocol/index.ts";
import { type OutputPopulation, outputLife } from "./outputPopulation.ts";
import { seeded } from "./population.ts";

/** Shares of people (or of hours, or of times), for one population and length of log. */
export interface OutputCoverage {
  /** People given figures at all; the others' logs were too short. */
  given: number;
  /** Own mean day within its 80 % band. */
  daily: number;
  /** Own mean of each hour within its 80 % band. */
  hourly: number;
  /** The time a third (half) is really reached lies from p10 to p90; before p10; after p90. */
  third: number;
  thirdSooner: number;
  thirdLater: number;
  half: number;
  halfSooner: number;
  halfLater: number;
  /** Mean chance stated that the night passes half, and the share of nights that do. */
  nightStated: number;
  nightSeen: number;
  /** Named quiet hours that are really quieter than the average of the day. */
  quiet: number;
}

/** Draws people, gives each a log of `days`, asks for the forecast, and compares it with what then happens. */
export function outputCoverage(
  population: OutputPopulation,
  days: number,
  people: number,
  seed: number,
): OutputCoverage {
  const random = seeded(seed);
  const sums = new Map<string, { sum: number; n: number }>();
  const count = (what: keyof OutputCoverage, value: number | boolean) => {
    const so = sums.get(what) ?? { sum: 0, n: 0 };
    sums.set(what, { sum: so.sum + Number(value), n: so.n + 1 });
  };
  for (let i = 0; i < people; i++) {
    const person = population.person(random);
    const life = outputLife(person, days, random);
    const forecast = emptying(life.input);
    count("given", forecast.meanDailyMl !== null);
    if (forecast.meanDailyMl === null) continue;
    const dailyMl = person.meanMl.reduce((a, b) => a + b);
    count("daily", within(dailyMl, forecast.dailyBandMl!));
    for (const [hour, band] of forecast.bandByHourMl!.entries())
      count("hourly", within(sumOf(person.meanMl, 4 * hour, 4), band));
    const lastMs = Date.parse(life.input.lastEmptiedAt);
    for (const what of ["third", "half"] as const) {
      const share = what === "third" ? protocol.emptyAtShare : protocol.emptyNowShare;
      const atMs = lastMs + 3_600_000 * life.hoursUntil(person.capacityMl * share);
      const { sooner, later } = missed(
        atMs,
        what === "third" ? forecast.reachesThirdAt! : forecast.reachesHalfAt!,
      );
      count(what, !sooner && !later);
      count(`${what}Sooner`, sooner);
      count(`${what}Later`, later);
    }
    const { from, to, chanceOverHalf } = forecast.night!;
    count("nightStated", chanceOverHalf);
    const cameMl = life.volumeBetween(Date.parse(from), Date.parse(to));
    count("nightSeen", cameMl >= person.capacityMl * protocol.emptyNowShare);
    for (const quiet of forecast.quietHours!) {
      const [hour, minute] = quiet.from.split(":").map(Number) as [number, number];
      count("quiet", sumOf(person.meanMl, 4 * hour + minute / 15, 4) < dailyMl / 24);
    }
  }
  return Object.fromEntries(
    [...sums].map(([what, { sum, n }]) => [what, sum / n]),
  ) as unknown as OutputCoverage;
}

/** A limit beyond the horizon is null: later than any time named. */
function missed(atMs: number, { p10, p90 }: Reached): { sooner: boolean; later: boolean } {
  const horizon = Number.MAX_VALUE;
  return {
    sooner: atMs < (p10 === null ? horizon : Date.parse(p10)),
    later: atMs > (p90 === null ? horizon : Date.parse(p90)),
  };
}

function within(value: number, { lower, upper }: { lower: number; upper: number }): boolean {
  return lower <= value && value <= upper;
}

function sumOf(quarters: readonly number[], from: number, count: number): number {
  return Array.from({ length: count }, (_, i) => quarters[(from + i) % quarters.length]!).reduce(
    (a, b) => a + b,
  );
}
