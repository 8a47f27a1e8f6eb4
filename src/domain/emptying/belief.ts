import type { Protocol } from "../protocol/index.ts";
import type { StomaType } from "./emptying.ts";
import type { Belief } from "./fit.ts";
import { type Days, judgingAt, levelAt, unknownsOf, waveSds } from "./rate.ts";

/** A positive number believed log-normal: two in three within the factor of the middle. */
export interface Around {
  middle: number;
  factor: number;
}

/** What is believed before the log, by the type of stoma. */
export interface OutputBelief {
  dailyMl: Around;
  gushMl: Around;
  dayLogSd: Around;
}

export function outputBelief(stomaType: StomaType, protocol: Protocol): OutputBelief {
  const { gushFactor: factor } = protocol;
  const dayLogSd = { middle: protocol.dayLogSd, factor: protocol.dayLogSdFactor };
  switch (stomaType) {
    case "ileostomy":
      return {
        dailyMl: { middle: protocol.dailyIleostomyMl, factor: protocol.dailyIleostomyFactor },
        gushMl: { middle: protocol.gushIleostomyMl, factor },
        dayLogSd,
      };
    case "colostomy":
      return {
        dailyMl: { middle: protocol.dailyColostomyMl, factor: protocol.dailyColostomyFactor },
        gushMl: { middle: protocol.gushColostomyMl, factor },
        dayLogSd,
      };
    case "urostomy":
      return {
        dailyMl: { middle: protocol.dailyUrostomyMl, factor: protocol.dailyUrostomyFactor },
        gushMl: { middle: protocol.gushUrostomyMl, factor },
        dayLogSd,
      };
    default:
      return {
        dailyMl: { middle: protocol.dailyOtherMl, factor: protocol.dailyOtherFactor },
        gushMl: { middle: protocol.gushOtherMl, factor },
        dayLogSd,
      };
  }
}

/** The unknowns before the log, where days spread by `dayLogSd`: no hour is favoured, no day stands out. */
export function beliefAbout(
  { dailyMl }: OutputBelief,
  days: Days,
  dayLogSd: number,
  protocol: Protocol,
): Belief {
  const means = new Array<number>(unknownsOf(days)).fill(0);
  const sds = new Array<number>(means.length).fill(dayLogSd);
  means[levelAt] = Math.log(dailyMl.middle / 24);
  sds[levelAt] = Math.log(dailyMl.factor);
  for (const [k, sd] of waveSds(protocol.clockLogSd).entries()) sds[levelAt + 1 + k] = sd;
  sds[judgingAt] = protocol.fullnessBiasShare;
  return { means, sds };
}
