import type { Point } from "../outline/index.ts";
import { pointsOf } from "./landmark.ts";
import { quadrantAt, quadrantWords } from "./quadrant.ts";
import type { Siting } from "./siting.ts";

/** How to find a place on the body without the picture. */
export interface Finding {
  /** From the navel: to the person's left and toward the head where positive. */
  leftMm: number;
  headMm: number;
  fromNavelMm: number;
  /** From the hip bone on its side, straight along the skin; null where none is marked there. */
  fromHipBoneMm: number | null;
  words: string;
}

/**
 * Two ways in one sentence: across and up or down from the navel, and with a tape from navel and hip bone, where two
 * lengths cross in two places and the words say which is meant.
 */
export function findingWay(siting: Siting, at: Point): Finding {
  const [x, y] = navelOf(siting);
  const [leftMm, headMm] = [at[0] - x, at[1] - y];
  const fromNavelMm = Math.hypot(leftMm, headMm);
  const hip = hipBoneBeside(siting, leftMm);
  const fromHipBoneMm = hip && Math.hypot(at[0] - hip[0], at[1] - hip[1]);
  const side = leftMm < 0 ? "right" : "left";
  const steps = `${quadrantWords[quadrantAt(siting, at)]}: ${mm(Math.abs(leftMm))} to the person’s ${side} of the navel and ${mm(Math.abs(headMm))} ${headMm < 0 ? "below" : "above"} it`;
  const tape = hip
    ? `; by tape ${mm(fromNavelMm)} from the navel and ${mm(fromHipBoneMm!)} from the ${side} hip bone, on the ${sideOfLine([x, y], hip, at)} side of the line between them`
    : `; by tape ${mm(fromNavelMm)} from the navel`;
  const words = `${steps}${tape}.`;
  return {
    leftMm,
    headMm,
    fromNavelMm,
    fromHipBoneMm,
    words: words.charAt(0).toUpperCase() + words.slice(1),
  };
}

function navelOf({ landmarks }: Siting): Point {
  return pointsOf(landmarks.find(({ kind }) => kind === "navel")!.shape)[0]!;
}

/** The hip bone on a side, as it was first marked. */
function hipBoneBeside({ landmarks }: Siting, leftMm: number): Point | null {
  const bones = landmarks
    .filter(({ kind }) => kind === "hipBone")
    .map(({ shape }) => pointsOf(shape)[0]!)
    .filter(([x]) => (leftMm < 0 ? x < 0 : x > 0));
  return bones[0] ?? null;
}

/** Which side of the line from navel to hip bone: toward the head or toward the foot. */
function sideOfLine([nx, ny]: Point, [hx, hy]: Point, [x, y]: Point): "head" | "foot" {
  const lineY = ny + ((hy - ny) * (x - nx)) / (hx - nx);
  return y >= lineY ? "head" : "foot";
}

function mm(value: number): string {
  return `${Math.round(value)} mm`;
}
