import type { Protocol } from "../protocol/index.ts";
import type { Empty, EmptyingInput } from "./emptying.ts";

/** What came out of the stoma between two emptyings. */
export interface Fill {
  fromMs: number;
  toMs: number;
  volumeMl: number;
  /** Standard deviation of the volume's error: this share of it, and at the least so many mL. */
  errorShare: number;
  errorMl: number;
  /** Judged from how full the pouch looked, so that a person's way of judging is in it. */
  isJudged: boolean;
}

/** The fills of a log, and what kept other emptyings from telling one. */
export interface Fills {
  fills: Fill[];
  coveredHours: number;
  leftOut: Record<"noVolume" | "gas" | "gap" | "tooLong", number>;
}

type Logged = Pick<
  EmptyingInput,
  "empties" | "logGaps" | "pouchCapacityMl" | "nightCapacityMl" | "stomaType" | "lastEmptiedAt"
>;

/**
 * An emptying tells what came since the one before, nothing more: the first tells nothing, and neither does one
 * after a gap in the log. Gas alone is no output: letting it out is no emptying.
 */
export function fillsOf(log: Logged, protocol: Protocol): Fills {
  const sinceMs = Date.parse(log.lastEmptiedAt) - protocol.outputWindowDays * 86_400_000;
  const empties = log.empties
    .filter((empty) => !isGasAlone(empty))
    .map((empty) => ({ ...empty, ms: Date.parse(empty.at) }))
    .sort((a, b) => a.ms - b.ms)
    .filter(({ ms }) => ms >= sinceMs);
  const result: Fills = { fills: [], coveredHours: 0, leftOut: { noVolume: 0, gas: 0, gap: 0, tooLong: 0 } };
  for (const [i, empty] of empties.entries()) {
    const before = empties[i - 1];
    if (!before || before.ms === empty.ms) continue;
    const fill = fillOf(before.ms, empty, log, protocol);
    if (typeof fill === "string") {
      result.leftOut[fill] += 1;
      continue;
    }
    result.fills.push(fill);
    result.coveredHours += (fill.toMs - fill.fromMs) / 3_600_000;
  }
  return result;
}

/** Gas was let out and nothing else: no emptying. */
export function isGasAlone({ gas, fraction, volumeMl }: Empty): boolean {
  return gas === true && fraction === undefined && volumeMl === undefined;
}

function fillOf(
  fromMs: number,
  { ms: toMs, fraction, volumeMl, gas, from }: Empty & { ms: number },
  log: Logged,
  protocol: Protocol,
): Fill | keyof Fills["leftOut"] {
  const gaps = log.logGaps ?? [];
  if (gaps.some((gap) => Date.parse(gap.from) < toMs && Date.parse(gap.to) > fromMs)) return "gap";
  const longestHours =
    log.stomaType === "colostomy" ? protocol.longestFillColostomyHours : protocol.longestFillHours;
  if (toMs - fromMs > longestHours * 3_600_000) return "tooLong";
  if (volumeMl !== undefined)
    return { fromMs, toMs, volumeMl, errorShare: protocol.measuredErrorShare, errorMl: 0, isJudged: false };
  if (fraction === undefined) return "noVolume";
  if (gas) return "gas";
  const capacityMl = from === "nightBag" ? (log.nightCapacityMl ?? 0) : log.pouchCapacityMl;
  return {
    fromMs,
    toMs,
    volumeMl: fraction * capacityMl,
    errorShare: protocol.fullnessErrorShare,
    errorMl: protocol.fullnessErrorOfPouch * capacityMl,
    isJudged: true,
  };
}
