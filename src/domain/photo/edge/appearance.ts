import { card } from "../../frame-card/index.ts";
import { patchHalfMm } from "../patch/patch.ts";
import { edgeOfHoleMm } from "./disc.ts";
import { blurred, type Features } from "./features.ts";

/** How far inside (positive) or outside a place lies of what is taken for the stoma, in mm. */
export type Inside = (xMm: number, yMm: number) => number;

/** The colours in the hole, sorted into boxes: all that a guess of what is stoma needs to learn from. */
export interface Colours {
  features: Features;
  /** Pixels of the hole, and the box of each one's colour. */
  hole: Int32Array;
  boxes: Uint16Array;
}

const bins = 20;
const boxCount = bins ** 3;
/** Every so many pixels are learnt from. */
const learnEvery = 2;
/** Weight of the belief that a colour never met may belong to either. */
const unseen = 0.6;
/** No single pixel may say more than this: shine and blood lie. */
const mostCertain = 2.5;

export function coloursOf(features: Features): Colours {
  const hole = holePixels(features);
  const boxes = new Uint16Array(hole.length);
  for (const plane of [features.brightness, features.redness, features.blueness]) {
    const { low, width } = rangeOf(plane, hole);
    for (let k = 0; k < hole.length; k++) {
      const bin = Math.floor((plane[hole[k]!]! - low) / width);
      boxes[k] = boxes[k]! * bins + Math.min(bins - 1, Math.max(0, bin));
    }
  }
  return { features, hole, boxes };
}

/**
 * For each pixel of the hole, the logarithm of how much better its colour suits the stoma than the skin, learnt from
 * what lies clearly inside and clearly outside of a first guess. 0 where nothing is known, and outside of the hole.
 */
export function stomaLikeness(
  { features, hole, boxes }: Colours,
  inside: Inside,
  marginMm: number,
): Float32Array {
  const { side, pxPerMm } = features;
  const stoma = new Float32Array(boxCount);
  const skin = new Float32Array(boxCount);
  const shadow = new ShadowRule(features);
  let [stomaCount, skinCount] = [0, 0];
  for (let k = 0; k < hole.length; k += learnEvery) {
    const at = hole[k]!;
    const deep = inside(
      ((at % side) + 0.5) / pxPerMm - patchHalfMm,
      patchHalfMm - (Math.floor(at / side) + 0.5) / pxPerMm,
    );
    if (Math.abs(deep) <= marginMm) continue;
    if (k % (4 * learnEvery) === 0) shadow.learn(at, deep > 0);
    if (deep > 0) {
      stoma[boxes[k]!]! += 1;
      stomaCount += 1;
    } else {
      skin[boxes[k]!]! += 1;
      skinCount += 1;
    }
  }
  const ratios = logRatios(smoothed(stoma), stomaCount, smoothed(skin), skinCount);
  const likeness = new Float32Array(side * side);
  shadow.settle();
  for (let k = 0; k < hole.length; k++) {
    const at = hole[k]!;
    const value = ratios[boxes[k]!]! - shadow.against(at);
    likeness[at] = Math.max(-mostCertain, Math.min(mostCertain, value));
  }
  return blurred(likeness, side, Math.max(1, Math.round(0.2 * pxPerMm)));
}

function logRatios(
  stoma: Float32Array,
  stomaCount: number,
  skin: Float32Array,
  skinCount: number,
): Float32Array {
  const floor = unseen / boxCount;
  return stoma.map((count, box) =>
    Math.log((count / Math.max(1, stomaCount) + floor) / (skin[box]! / Math.max(1, skinCount) + floor)),
  );
}

/** Darker than the skin and hardly pinker than it is the skin's shadow, however seldom that colour was met outside. */
class ShadowRule {
  private readonly pinkInside: number[] = [];
  private readonly pinkOutside: number[] = [];
  private readonly brightOutside: number[] = [];
  private readonly features: Features;
  private skinPink = 0;
  private skinBright = 0;
  private apart = 1;

  constructor(features: Features) {
    this.features = features;
  }

  learn(at: number, isInside: boolean): void {
    const { redness, blueness, brightness } = this.features;
    const pink = redness[at]! + blueness[at]!;
    if (isInside) this.pinkInside.push(pink);
    else {
      this.pinkOutside.push(pink);
      this.brightOutside.push(brightness[at]!);
    }
  }

  settle(): void {
    this.skinPink = middleOf(this.pinkOutside);
    this.skinBright = middleOf(this.brightOutside);
    this.apart = Math.max(0.1, middleOf(this.pinkInside) - this.skinPink);
  }

  /** What a pixel's being a shadow speaks against its being stoma. */
  against(at: number): number {
    const { redness, blueness, brightness } = this.features;
    const darker = this.skinBright - brightness[at]!;
    if (darker < 0.15) return 0;
    const pinker = (redness[at]! + blueness[at]! - this.skinPink) / this.apart;
    return Math.max(0, Math.min(1.5, 4 * (0.45 - pinker))) * Math.min(1, darker / 0.4);
  }
}

function middleOf(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1] ?? 0;
}

function holePixels({ side, pxPerMm }: Features): Int32Array {
  const reach = card.holeRadiusMm - edgeOfHoleMm / 2;
  const found: number[] = [];
  for (let row = 0; row < side; row++) {
    const y = patchHalfMm - (row + 0.5) / pxPerMm;
    for (let column = 0; column < side; column++) {
      const x = (column + 0.5) / pxPerMm - patchHalfMm;
      if (x * x + y * y < reach * reach) found.push(row * side + column);
    }
  }
  return Int32Array.from(found);
}

/** From the second to the ninety-eighth hundredth, and a little more on both sides. */
function rangeOf(plane: Float32Array, hole: Int32Array): { low: number; width: number } {
  const some = Float32Array.from({ length: hole.length >> 4 }, (_, at) => plane[hole[at * 16]!]!).sort();
  const [low, high] = [some[Math.floor(0.02 * some.length)]!, some[Math.floor(0.98 * some.length)]!];
  const more = 0.15 * (high - low) + 0.02;
  return { low: low - more, width: (high - low + 2 * more) / bins };
}

/** One, two, one along each axis. */
function smoothed(counts: Float32Array): Float32Array {
  let from = counts;
  for (const step of [1, bins, bins * bins]) {
    const to = new Float32Array(from.length);
    for (let at = 0; at < from.length; at++) {
      const place = Math.floor(at / step) % bins;
      const before = place > 0 ? from[at - step]! : from[at]!;
      const after = place < bins - 1 ? from[at + step]! : from[at]!;
      to[at] = (before + 2 * from[at]! + after) / 4;
    }
    from = to;
  }
  return from;
}
