import type { Picture } from "./poppler.ts";

/** A hole found on paper: all that the heavy line encloses, up to the line's inner edge. */
export interface PrintedHole {
  /** Middle of its bounding box, in millimetres from the page's top left. */
  middleMm: { x: number; y: number };
  widthMm: number;
  heightMm: number;
  areaMm2: number;
  /** Width between parallel jaws at an angle in degrees, 0 across, 90 upright. */
  widthAtMm(angleDeg: number): number;
  /** Whether the hole covers a place in millimetres from its middle, x to the right, y down. */
  covers(x: number, y: number): boolean;
}

const darkBelow = 128;

/**
 * The hole round a place on the page, in millimetres from the page's top left: the white that hangs together
 * with it, up to the closed line, and every mark that lies in that white.
 */
export function holeAround(picture: Picture, seedMm: { x: number; y: number }): PrintedHole {
  const { width, pixels, perMm } = picture;
  const seed = Math.round(seedMm.y * perMm) * width + Math.round(seedMm.x * perMm);
  if (pixels[seed]! < darkBelow) throw new Error("the place to start from is not white");
  const white = new Uint8Array(pixels.length);
  const found = spread(picture, seed, (at) => pixels[at]! >= darkBelow && !white[at], white);
  return measured(maskOf(white, width, found), perMm);
}

/** Lengths of the unbroken dark lines of a page that are longer than 40 mm, longest first, each once. */
export function longLinesMm(
  { width, height, pixels, perMm }: Picture,
  direction: "across" | "upright",
): number[] {
  const [lines, along] = direction === "across" ? [height, width] : [width, height];
  const at = (line: number, place: number) =>
    direction === "across" ? line * width + place : place * width + line;
  const lengths = new Set<number>();
  for (let line = 0; line < lines; line++) {
    let run = 0;
    for (let place = 0; place <= along; place++) {
      if (place < along && pixels[at(line, place)]! < darkBelow) run++;
      else {
        if (run > 40 * perMm) lengths.add(run);
        run = 0;
      }
    }
  }
  return [...lengths].map((run) => run / perMm).sort((a, b) => b - a);
}

/** The box round everything that is not white, in millimetres from the page's top left. */
export function inkBoxMm({ width, height, pixels, perMm }: Picture) {
  let [left, right, top, bottom] = [width, -1, height, -1];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (pixels[y * width + x]! >= 250) continue;
      left = Math.min(left, x);
      right = Math.max(right, x + 1);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y + 1);
    }
  }
  return { left: left / perMm, right: right / perMm, top: top / perMm, bottom: bottom / perMm };
}

/** How much of two holes differs when their middles are laid on each other, as a share of the first. */
export function shareThatDiffers(a: PrintedHole, b: PrintedHole, mirrored: boolean): number {
  const stepMm = 0.1;
  let [differs, total] = [0, 0];
  for (let y = -a.heightMm; y <= a.heightMm; y += stepMm) {
    for (let x = -a.widthMm; x <= a.widthMm; x += stepMm) {
      const inA = a.covers(x, y);
      if (inA) total++;
      if (inA !== b.covers(mirrored ? -x : x, y)) differs++;
    }
  }
  return differs / total;
}

/** A part of the page, one pixel wider than a hole on every side; 1 outside the hole. */
interface Mask {
  left: number;
  top: number;
  width: number;
  height: number;
  outside: Uint8Array;
}

/** White and the marks inside it: all in its box that is not joined to the box's edge. */
function maskOf(white: Uint8Array, pageWidth: number, found: Int32Array): Mask {
  const [left, right] = extremes(found, (at) => at % pageWidth);
  const [top, bottom] = extremes(found, (at) => Math.floor(at / pageWidth));
  const box = { left: left - 1, top: top - 1, width: right - left + 3, height: bottom - top + 3 };
  const outside = new Uint8Array(box.width * box.height);
  const isWhite = (at: number) =>
    white[(box.top + Math.floor(at / box.width)) * pageWidth + box.left + (at % box.width)] === 1;
  spread(box, 0, (at) => !outside[at] && !isWhite(at), outside);
  return { ...box, outside };
}

/** Marks and lists the pixels that hang together, edge to edge, with the first and pass the test. */
function spread(
  { width, height }: { width: number; height: number },
  start: number,
  passes: (at: number) => boolean,
  marks: Uint8Array,
): Int32Array {
  const found = new Int32Array(width * height);
  let count = 0;
  const take = (at: number) => {
    if (!passes(at)) return;
    marks[at] = 1;
    found[count++] = at;
  };
  take(start);
  for (let next = 0; next < count; next++) {
    const at = found[next]!;
    const x = at % width;
    if (x > 0) take(at - 1);
    if (x < width - 1) take(at + 1);
    if (at >= width) take(at - width);
    if (at + width < width * height) take(at + width);
  }
  return found.subarray(0, count);
}

function measured({ left, top, width, height, outside }: Mask, perMm: number): PrintedHole {
  const corners: [number, number][] = [];
  let area = 0;
  for (let y = 0; y < height; y++) {
    let [first, last] = [-1, -1];
    for (let x = 0; x < width; x++) {
      if (outside[y * width + x]) continue;
      area++;
      if (first < 0) first = x;
      last = x;
    }
    if (first >= 0) corners.push([first, y], [last + 1, y], [first, y + 1], [last + 1, y + 1]);
  }
  const middle = { x: width / 2, y: height / 2 };
  return {
    middleMm: { x: (left + middle.x) / perMm, y: (top + middle.y) / perMm },
    widthMm: (width - 2) / perMm,
    heightMm: (height - 2) / perMm,
    areaMm2: area / perMm ** 2,
    widthAtMm(angleDeg) {
      const angle = (angleDeg * Math.PI) / 180;
      const [least, most] = extremes(corners, ([x, y]) => x * Math.cos(angle) - y * Math.sin(angle));
      // a slanted jaw rests on the corners of pixels, which stand out from the line by up to half a pixel each
      const cornerMm = (Math.abs(Math.cos(angle)) + Math.abs(Math.sin(angle)) - 1) / perMm;
      return (most - least) / perMm - cornerMm;
    },
    covers(xMm, yMm) {
      const [x, y] = [Math.floor(middle.x + xMm * perMm), Math.floor(middle.y + yMm * perMm)];
      return x >= 0 && x < width && y >= 0 && y < height && outside[y * width + x] === 0;
    },
  };
}

function extremes<T>(values: Iterable<T>, number: (value: T) => number): [number, number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    const got = number(value);
    if (got < least) least = got;
    if (got > most) most = got;
  }
  return [least, most];
}
