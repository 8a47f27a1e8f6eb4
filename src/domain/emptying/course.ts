import { quartersADay } from "./clock.ts";
import { type LogNormal, logNormalOf, meanOf, quantileOf } from "./mixture.ts";
import type { Possible } from "./posterior.ts";
import { type Days, dayTable, type Volume, volumeOf } from "./rate.ts";

/** An 80 % band. */
export interface Band {
  lower: number;
  upper: number;
}

/** Output round the clock, the mean over days. */
export interface Course {
  dailyMl: number;
  dailyBandMl: Band;
  byHourMl: number[];
  bandByHourMl: Band[];
}

const quartersAnHour = quartersADay / 24;

export function courseOf(posterior: readonly Possible[], days: Days): Course {
  const people = posterior.map((possible) => ({ possible, middleDay: middleDayOf(possible, days) }));
  /** The mean over this person's days: that of a log-normal day lies above the middle day. */
  const meanVolume = (fromQuarter: number, quarters: number): LogNormal[] =>
    people.map(({ possible, middleDay }) => {
      const { mean, ...rest } = logNormalOf(possible, middleDay.volume(fromQuarter, quarters));
      return { ...rest, mean: mean + possible.dayLogSd ** 2 / 2 };
    });
  const hours = Array.from({ length: 24 }, (_, hour) => meanVolume(hour * quartersAnHour, quartersAnHour));
  const day = meanVolume(0, quartersADay);
  const dailyMl = meanOf(day);
  const means = hours.map(meanOf);
  // The log tells the day better than its hours, whose means by themselves add up to somewhat more.
  const share = dailyMl / means.reduce((a, b) => a + b);
  return {
    dailyMl,
    dailyBandMl: bandOf(day),
    byHourMl: means.map((ml) => ml * share),
    bandByHourMl: hours.map(bandOf),
  };
}

/** One possible person's middle day: a day without an effect of its own. */
export interface MiddleDay {
  /** The volume from this quarter on; it may run past midnight. */
  volume(fromQuarter: number, quarters: number): Volume;
}

export function middleDayOf({ unknowns }: Possible, days: Days): MiddleDay {
  const table = dayTable(unknowns);
  const onDay = (from: number, to: number) => ({ date: "", from, to });
  return {
    volume(fromQuarter, quarters) {
      const to = fromQuarter + quarters;
      const stretches =
        to <= quartersADay
          ? [onDay(fromQuarter, to)]
          : [onDay(fromQuarter, quartersADay), onDay(0, to - quartersADay)];
      return volumeOf(stretches, table, unknowns, days);
    },
  };
}

function bandOf(mixture: readonly LogNormal[]): Band {
  return { lower: quantileOf(mixture, 0.1), upper: quantileOf(mixture, 0.9) };
}
