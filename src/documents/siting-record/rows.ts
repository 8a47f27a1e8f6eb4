import type { Point } from "../../domain/outline/index.ts";
import { type Clearance, type Place, placeAt, type Siting } from "../../domain/siting/index.ts";
import type { SitingMark } from "./input.ts";
import { shortPostureWords } from "./words.ts";

/** A mark with all that was measured of it. */
export interface MarkedPlace extends SitingMark {
  place: Place;
}

/** One landmark and how far each mark lies from it. */
export interface ClearanceRow {
  /** Stands beside the landmark on the map. */
  number: number;
  name: string;
  limitMm: number;
  /** One for each mark, by rank. */
  mm: { value: number; kept: boolean }[];
  rule: Siting["rules"][number];
}

export function markedPlaces(siting: Siting, marks: readonly SitingMark[]): MarkedPlace[] {
  return [...marks]
    .sort((a, b) => a.rank - b.rank)
    .map((mark) => ({ ...mark, place: placeAt(siting, mark.at) }));
}

/** Landmarks by how tight they are for any mark, tightest first, numbered in that order. */
export function clearanceRows(siting: Siting, marks: readonly MarkedPlace[]): ClearanceRow[] {
  return siting.rules
    .map((rule) => ({ rule, mm: marks.map(({ at }) => measured(rule, at)) }))
    .sort((a, b) => tightest(a.mm) - tightest(b.mm))
    .map(({ rule, mm }, index) => ({
      number: index + 1,
      name: rule.posture ? `${rule.to}, ${shortPostureWords[rule.posture]}` : rule.to,
      limitMm: rule.limitMm,
      mm: mm.map(({ mm: value, slackMm }) => ({ value, kept: slackMm >= 0 })),
      rule,
    }));
}

function measured(
  { distanceMm, limitMm }: Siting["rules"][number],
  at: Point,
): Pick<Clearance, "mm" | "slackMm"> {
  const mm = distanceMm(...at);
  return { mm, slackMm: mm - limitMm };
}

function tightest(mm: readonly { slackMm: number }[]): number {
  return Math.min(...mm.map(({ slackMm }) => slackMm));
}
