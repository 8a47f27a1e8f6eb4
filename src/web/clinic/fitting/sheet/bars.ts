import type { PrintScale } from "../../../shared/printer/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";

/** Length of the bars that are measured, mm. */
export const barMm = 100;

/** Further off than this is a wrong reading or the wrong paper, not a printer: the server draws no sheet for it. */
export const scaleLimits = { least: 0.92, most: 1.08 } as const;

/** What the ruler said of both bars, as typed. */
export interface BarsTyped {
  across: string;
  upright: string;
}

/** What both bars say of the printer. */
export type BarsRead =
  | { said: "nothing" }
  | { said: "unreadable" | "absurd" }
  /** Within the protocol's tolerance: needs no correction. */
  | { said: "true"; scale: PrintScale }
  | { said: "off"; scale: PrintScale };

/**
 * Reads the bars. One of them left blank is unreadable: a printer may be off one way only.
 * @param tolerancePercent the protocol's `barTolerancePercent`
 */
export function readBars({ across, upright }: BarsTyped, tolerancePercent: number): BarsRead {
  if (across.trim() === "" && upright.trim() === "") return { said: "nothing" };
  const [x, y] = [readDecimal(across), readDecimal(upright)];
  if ([x, y].some((one) => one !== null && isAbsurd(one / barMm))) return { said: "absurd" };
  if (x === null || y === null) return { said: "unreadable" };
  const scale = { x: x / barMm, y: y / barMm };
  const off = Math.max(Math.abs(scale.x - 1), Math.abs(scale.y - 1));
  // A whisker of slack, since 99.5 is not exactly half a per cent off in binary.
  return { said: off <= tolerancePercent / 100 + 1e-9 ? "true" : "off", scale };
}

function isAbsurd(scale: number): boolean {
  return scale < scaleLimits.least || scale > scaleLimits.most;
}

/** What to send with a sheet: nothing where the printer is true. */
export function correctionFor(read: BarsRead): PrintScale | undefined {
  return read.said === "off" ? read.scale : undefined;
}

/** The printer's own scale, from bars on a sheet that was already drawn for another. */
export function togetherWith(drawnFor: PrintScale | undefined, measured: PrintScale): PrintScale {
  const before = drawnFor ?? { x: 1, y: 1 };
  return { x: before.x * measured.x, y: before.y * measured.y };
}

/** A scale as a ruler would have said it. */
export function asTyped(scale: PrintScale | null): BarsTyped {
  const typed = (one: number) => String(Math.round(one * barMm * 100) / 100);
  return scale ? { across: typed(scale.x), upright: typed(scale.y) } : { across: "", upright: "" };
}
