import type { Protocol } from "../../domain/protocol/index.ts";
import type { BodyOf } from "./kinds/index.ts";
import type { StomaType } from "./kinds/stoma.ts";

/** A value that is possible but unlikely: the nurse is asked, never stopped. */
export interface Doubt {
  path: string;
  code: string;
  text: string;
}

/** What is known when a measurement is written down. */
export interface MeasuringContext {
  stomaType: StomaType;
  /** Longest extent of the reading before this one, mm. */
  lastLongestMm?: number;
}

/** Questions about a measurement of the given extents. */
export function doubtsAboutMeasurement(
  body: Pick<BodyOf<"measured">, "heightMm">,
  [longestMm, narrowestMm]: readonly [number, number],
  { stomaType, lastLongestMm }: MeasuringContext,
  protocol: Protocol,
): Doubt[] {
  const doubts: Doubt[] = [];
  const ask = (path: string, code: string, text: string) => doubts.push({ path, code, text });
  if (longestMm > protocol.askDiameterAboveMm) {
    ask(
      "shape",
      "unusuallyLarge",
      `${mm(longestMm)} across is large for a stoma (protocol: ask above ${mm(protocol.askDiameterAboveMm)}). Is it right, and in millimetres?`,
    );
  }
  if (narrowestMm < protocol.askDiameterBelowMm) {
    ask(
      "shape",
      "unusuallySmall",
      `${mm(narrowestMm)} across is small for a stoma (protocol: ask below ${mm(protocol.askDiameterBelowMm)}). Is it right, and not in centimetres or inches?`,
    );
  }
  if (lastLongestMm !== undefined && Math.abs(longestMm - lastLongestMm) > protocol.askJumpMm) {
    ask(
      "shape",
      "jump",
      `The last reading was ${mm(lastLongestMm)}; this one is ${mm(longestMm)} (protocol: ask when they differ by more than ${mm(protocol.askJumpMm)}). Is it right?`,
    );
  }
  const low = lowHeightMm(stomaType, protocol);
  if (body.heightMm !== undefined && low !== null && body.heightMm < low) {
    ask(
      "heightMm",
      "lowHeight",
      `Height ${mm(body.heightMm)} is low for ${article(stomaType)}: ask about a convex barrier and follow up closely (protocol: ${mm(low)}).`,
    );
  }
  return doubts;
}

/** The height below which leaks and skin trouble are common; null where no limit is known. */
export function lowHeightMm(stomaType: StomaType, protocol: Protocol): number | null {
  if (stomaType === "ileostomy") return protocol.lowHeightIleostomyMm;
  if (stomaType === "colostomy") return protocol.lowHeightColostomyMm;
  return null;
}

function mm(value: number): string {
  return `${Math.round(value * 10) / 10} mm`;
}

function article(type: StomaType): string {
  return type === "ileostomy" ? "an ileostomy" : `a ${type}`;
}
