import type { Track } from "../outline/index.ts";

/** For offsets of metres the tolerance grows, so that an arc never needs more than about a thousand sides. */
const leastToleranceShare = 5e-6;

/** Points closer than this have no direction between them, mm. */
const samePlaceMm = 1e-9;

/** A parallel curve before the places where it runs through itself are cut out. */
export interface RawParallel extends Track {
  /** Whether no corner of the outline turned against the offset, so that nothing needs cutting out. */
  clean: boolean;
}

/**
 * Each edge of a counterclockwise outline moved out by `offsetMm` (in, where negative), joined by arcs where
 * the moved edges part. Where they cross close to the corner they are cut there; where they overlap further,
 * the line runs through the corner itself, which puts the overlap inside the region and leaves it to
 * `boundaryWalk`.
 *
 * @param toleranceMm arcs are drawn with sides that touch them from without and corners that stay this close.
 * Sides from within would not do: where a moved edge ends just behind such a side, the line would fold.
 */
export function rawParallel(outline: Track, offsetMm: number, toleranceMm: number): RawParallel {
  const { xs, ys, count } = outline;
  const radius = Math.abs(offsetMm);
  const tolerance = Math.max(toleranceMm, radius * leastToleranceShare);
  const sideAngle = 2 * Math.acos(radius / (radius + tolerance));
  const line: Line = { xs: [], ys: [] };
  let clean = true;

  let last = count - 1;
  while (last > 1 && lengthOf(xs[0]! - xs[last]!, ys[0]! - ys[last]!) < samePlaceMm) last -= 1;
  let lengthBefore = lengthOf(xs[0]! - xs[last]!, ys[0]! - ys[last]!);
  let normalX = (ys[0]! - ys[last]!) / lengthBefore;
  let normalY = (xs[last]! - xs[0]!) / lengthBefore;
  for (let at = 0; at <= last; at += 1) {
    const x = xs[at]!;
    const y = ys[at]!;
    const next = at < last ? at + 1 : 0;
    const lengthAfter = lengthOf(xs[next]! - x, ys[next]! - y);
    if (lengthAfter < samePlaceMm) continue;
    const nextNormalX = (ys[next]! - y) / lengthAfter;
    const nextNormalY = (x - xs[next]!) / lengthAfter;
    const sine = normalX * nextNormalY - normalY * nextNormalX;
    const cosine = normalX * nextNormalX + normalY * nextNormalY;
    const parting = sine * offsetMm > 0 || (sine === 0 && cosine < 0);
    const trimMm = (radius * Math.abs(sine)) / (1 + cosine);

    if (parting) {
      const turn = Math.sign(offsetMm) * Math.abs(Math.atan2(sine, cosine));
      pushArc(line, { x, y, armX: offsetMm * normalX, armY: offsetMm * normalY }, turn, sideAngle);
    } else if (2 * trimMm <= Math.min(lengthBefore, lengthAfter)) {
      const reach = offsetMm / (1 + cosine);
      line.xs.push(x + reach * (normalX + nextNormalX));
      line.ys.push(y + reach * (normalY + nextNormalY));
    } else {
      line.xs.push(x + offsetMm * normalX, x + offsetMm * nextNormalX);
      line.ys.push(y + offsetMm * normalY, y + offsetMm * nextNormalY);
    }
    if (!parting && sine !== 0) clean = false;
    lengthBefore = lengthAfter;
    normalX = nextNormalX;
    normalY = nextNormalY;
  }
  return { ...line, count: line.xs.length, clean };
}

function lengthOf(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
}

interface Line {
  xs: number[];
  ys: number[];
}

/** A corner to turn about, and the arm from it to where its arc begins. */
interface Pivot {
  x: number;
  y: number;
  armX: number;
  armY: number;
}

/** From this many sides on an arc belongs to a real corner, not to the grain of a curve. */
const cornerSides = 16;

/**
 * An arc of a real corner begins and ends with ever smaller sides: where two arcs just touch, as in a slot
 * exactly twice as wide as the gap, the place at which they meet hangs on their very ends.
 */
const endShares = [0, 1 / 8, 1 / 4, 1 / 2, 1];

function pushArc(line: Line, pivot: Pivot, turn: number, sideAngle: number): void {
  const sides = Math.ceil(Math.abs(turn) / sideAngle);
  if (sides < cornerSides) {
    pushSides(line, pivot, 0, turn, sides);
    return;
  }
  const side = turn / sides;
  endShares.slice(1).forEach((share, at) => {
    pushSides(line, pivot, endShares[at]! * side, share * side, 1);
  });
  pushSides(line, pivot, side, turn - side, sides - 2);
  endShares
    .toReversed()
    .slice(1)
    .forEach((share, at) => {
      pushSides(line, pivot, turn - endShares.at(-1 - at)! * side, turn - share * side, 1);
    });
}

/**
 * Corners of the line that touches an arc from without, between two angles, equal turns apart. The moved
 * edges that the arc joins are tangents too, so their own ends are no corners.
 */
function pushSides(line: Line, { x, y, armX, armY }: Pivot, from: number, to: number, sides: number): void {
  const step = (to - from) / sides;
  const reach = 1 / Math.cos(step / 2);
  const first = from + step / 2;
  let dx = (armX * Math.cos(first) - armY * Math.sin(first)) * reach;
  let dy = (armX * Math.sin(first) + armY * Math.cos(first)) * reach;
  const cos = Math.cos(step);
  const sin = Math.sin(step);
  for (let side = 0; side < sides; side += 1) {
    line.xs.push(x + dx);
    line.ys.push(y + dy);
    [dx, dy] = [dx * cos - dy * sin, dx * sin + dy * cos];
  }
}
