import { refuse } from "../fault.ts";
import type { Outline, Point } from "../outline/index.ts";
import type { Protocol } from "../protocol/index.ts";
import type { Landmark } from "./landmark.ts";

/** Read with a tape along the skin, the person lying flat. */
export interface TapeReadings {
  navelToPubisMm: number;
  /** From the navel straight to the nearest place of the rib margin. */
  navelToRibMarginMm: number;
  hipToHipMm: number;
  /** Round the waist at the navel. */
  waistMm: number;
  /** From the navel to a hip bone; left out: the protocol's share says how far below the navel they lie. */
  navelToHipMm?: number | undefined;
}

/** A first map of an abdomen, every part of which can be moved. */
export interface BodyMap {
  /** Hip bones, pubis and rib margins, in all postures. */
  landmarks: Landmark[];
  /** The front of the abdomen, flank to flank, to draw on. */
  outline: Outline;
}

/**
 * Lays tape readings out flat: the navel is the origin, the pubis straight below, the hip bones level with each other,
 * a rib margin falling to each side from above the navel, flanks at a quarter of the waist to either side.
 *
 * @throws InputError where the readings cannot be those of one body
 */
export function bodyMap(readings: TapeReadings, protocol: Protocol): BodyMap {
  const { navelToPubisMm, navelToRibMarginMm, hipToHipMm, waistMm } = readings;
  const hipX = hipToHipMm / 2;
  const hipY = -hipBelowNavelMm(readings, protocol);
  const flankX = Math.max(waistMm / 4, hipX);
  const angle = (protocol.siteRibAngleDeg * Math.PI) / 180;
  const topY = navelToRibMarginMm / Math.cos(angle);
  const ribEndX = Math.min(flankX, topY / Math.tan(angle));
  const ribEndY = topY - ribEndX * Math.tan(angle);
  const rib = (side: -1 | 1): Point[] => [
    [0, topY],
    [side * ribEndX, ribEndY],
  ];
  return {
    landmarks: [
      { kind: "hipBone", label: "right hip bone", shape: { point: [-hipX, hipY] } },
      { kind: "hipBone", label: "left hip bone", shape: { point: [hipX, hipY] } },
      { kind: "bone", label: "pubis", shape: { point: [0, -navelToPubisMm] } },
      { kind: "bone", label: "right rib margin", shape: { line: rib(-1) } },
      { kind: "bone", label: "left rib margin", shape: { line: rib(1) } },
    ],
    outline: [
      [0, -navelToPubisMm],
      [hipX, hipY],
      [flankX, 0],
      [ribEndX, ribEndY],
      [0, topY],
      [-ribEndX, ribEndY],
      [-flankX, 0],
      [-hipX, hipY],
    ],
  };
}

function hipBelowNavelMm(
  { navelToPubisMm, hipToHipMm, navelToHipMm }: TapeReadings,
  { siteHipLevelShare }: Protocol,
): number {
  if (navelToHipMm === undefined) return siteHipLevelShare * navelToPubisMm;
  const squared = navelToHipMm ** 2 - (hipToHipMm / 2) ** 2;
  if (squared < 0) {
    const expected = `at least half of hip to hip: ${hipToHipMm / 2}`;
    refuse("readings.navelToHipMm", "does not reach the hip bone", navelToHipMm, expected);
  }
  return Math.sqrt(squared);
}
