import type { Outline, Point, Region } from "../outline/index.ts";
import { type Box, type Cell, quarters, reachOf, type SlackMm } from "./search.ts";

/** The map is looked at in this many squares each way, as a power of two: a millimetre on an adult. */
const levels = 8;
const across = 2 ** levels;
/** Halvings that are done for every question together. */
export const coarseLevels = 5;

/** The square over a box whose squares the region is drawn in, wider than the box so that no edge runs off it. */
export function gridBox({ left, right, foot, head }: Box): Box {
  const [middleX, middleY] = [(left + right) / 2, (foot + head) / 2];
  const half = (Math.max(right - left, head - foot) / 2) * (1 + 4 / across);
  return { left: middleX - half, right: middleX + half, foot: middleY - half, head: middleY + half };
}

/**
 * The region in which no slack is negative: outer edges counterclockwise, holes clockwise. Its corners stand on the
 * limits themselves to a millionth of a millimetre, no edge is longer than a square's diagonal; parts that are
 * nowhere wider than a square may be missed.
 *
 * @param cells the squares of {@link gridBox} halved `coarseLevels` times
 */
export function regionWhere(cells: readonly Cell[], box: Box): Region {
  const grid: Grid = { box, stepMm: (box.right - box.left) / across, corners: new Map(), passes: new Map() };
  const segments = new Map<number, Segment>();
  for (const cell of leavesOf(cells)) addSegments(segments, grid, cell);
  return loopsOf(segments);
}

/** A piece of the region's edge across one square, keyed by the square's side where it begins. */
interface Segment {
  end: number;
  points: Point[];
}

interface Grid {
  box: Box;
  stepMm: number;
  /** Least slack at a corner of squares, by its number. */
  corners: Map<number, number>;
  /** Where the region's edge passes a side of squares, by the side's number, and which slack is the least there. */
  passes: Map<number, Pass>;
}

interface Pass {
  at: Point;
  by: SlackMm;
}

/** The smallest squares through which the region's edge may pass, each with the slacks that may be negative in it. */
function leavesOf(coarse: readonly Cell[]): Cell[] {
  let cells = coarse;
  for (let level = coarseLevels; ; level += 1) {
    const open = cells.flatMap((cell) => narrowed(cell) ?? []);
    if (level === levels) return open;
    cells = open.flatMap(quarters);
  }
}

/** Null where a square lies inside the region or outside it altogether. */
function narrowed(cell: Cell): Cell | null {
  const reachMm = reachOf(cell);
  const near: SlackMm[] = [];
  for (const slack of cell.of) {
    const value = slack(cell.x, cell.y);
    if (value < -reachMm) return null;
    if (value <= reachMm) near.push(slack);
  }
  return near.length > 0 ? { ...cell, of: near } : null;
}

/** Walks round a square counterclockwise: the region's edge goes from where the walk leaves it to where it enters. */
function addSegments(segments: Map<number, Segment>, grid: Grid, cell: Cell): void {
  const column = Math.round((cell.x - cell.halfMm - grid.box.left) / grid.stepMm);
  const row = Math.round((cell.y - cell.halfMm - grid.box.foot) / grid.stepMm);
  const corners = [
    [column, row],
    [column + 1, row],
    [column + 1, row + 1],
    [column, row + 1],
  ] as const;
  const inside = corners.map(([x, y]) => cornerSlack(grid, cell, x, y) >= 0);
  const leaves = [0, 1, 2, 3].filter((side) => inside[side] && !inside[(side + 1) % 4]);
  const enters = [0, 1, 2, 3].filter((side) => !inside[side] && inside[(side + 1) % 4]);
  const joined = leaves.length === 2 && leastOf(cell.of, cell.x, cell.y).slackMm >= 0;
  for (const leave of leaves) {
    const enter = enters.length === 1 ? enters[0]! : (leave + (joined ? 1 : 3)) % 4;
    const [from, to] = [sideNumber(corners, leave), sideNumber(corners, enter)];
    const begin = passOn(grid, cell, from, corners[leave]!, corners[(leave + 1) % 4]!);
    const end = passOn(grid, cell, to, corners[enter]!, corners[(enter + 1) % 4]!);
    const corner = begin.by === end.by ? null : cornerBetween(begin, end, cell);
    segments.set(from, { end: to, points: corner ? [begin.at, corner] : [begin.at] });
  }
}

type Corners = readonly (readonly [number, number])[];

/** Sides across are even numbers, upright ones odd. */
function sideNumber(corners: Corners, side: number): number {
  const [ax, ay] = corners[side]!;
  const [bx, by] = corners[(side + 1) % 4]!;
  return 2 * (Math.min(ay, by) * (across + 1) + Math.min(ax, bx)) + (ax === bx ? 1 : 0);
}

function cornerSlack(grid: Grid, { of }: Cell, column: number, row: number): number {
  const number = row * (across + 1) + column;
  let slackMm = grid.corners.get(number);
  if (slackMm === undefined) {
    slackMm = leastOf(of, ...placeOf(grid, column, row)).slackMm;
    grid.corners.set(number, slackMm);
  }
  return slackMm;
}

function placeOf({ box, stepMm }: Grid, column: number, row: number): Point {
  return [box.left + column * stepMm, box.foot + row * stepMm];
}

function leastOf(slacks: readonly SlackMm[], x: number, y: number): { slackMm: number; by: SlackMm } {
  let slackMm = Number.POSITIVE_INFINITY;
  let by = slacks[0]!;
  for (const slack of slacks) {
    const value = slack(x, y);
    if (value < slackMm) [slackMm, by] = [value, slack];
  }
  return { slackMm, by };
}

/** Where the edge passes a side between a corner inside the region and one outside, by regula falsi (Illinois). */
function passOn(
  grid: Grid,
  cell: Cell,
  side: number,
  a: readonly [number, number],
  b: readonly [number, number],
): Pass {
  const known = grid.passes.get(side);
  if (known) return known;
  const [from, to] = [placeOf(grid, ...a), placeOf(grid, ...b)];
  const along = (share: number): Point => [
    from[0] + share * (to[0] - from[0]),
    from[1] + share * (to[1] - from[1]),
  ];
  let [low, high] = [0, 1];
  let [atLow, atHigh] = [leastOf(cell.of, ...from).slackMm, leastOf(cell.of, ...to).slackMm];
  let pass: Pass = { at: from, by: cell.of[0]! };
  for (let turn = 0; turn < 60; turn += 1) {
    const share = (low * atHigh - high * atLow) / (atHigh - atLow);
    const { slackMm, by } = leastOf(cell.of, ...along(share));
    pass = { at: along(share), by };
    if (Math.abs(slackMm) < 1e-6) break;
    if (slackMm >= 0 === atHigh >= 0) {
      [high, atHigh, atLow] = [share, slackMm, atLow / 2];
    } else {
      [low, atLow, atHigh] = [share, slackMm, atHigh / 2];
    }
  }
  grid.passes.set(side, pass);
  return pass;
}

/** Where two limits meet inside a square: there the region has a corner. Null where they do not. */
function cornerBetween(begin: Pass, end: Pass, cell: Cell): Point | null {
  const hMm = 1e-5;
  let [x, y] = [(begin.at[0] + end.at[0]) / 2, (begin.at[1] + end.at[1]) / 2];
  for (let turn = 0; turn < 8; turn += 1) {
    const [f, g] = [begin.by(x, y), end.by(x, y)];
    if (Math.abs(f) + Math.abs(g) < 1e-6) {
      const within = Math.max(Math.abs(x - cell.x), Math.abs(y - cell.y)) <= cell.halfMm;
      return within && leastOf(cell.of, x, y).slackMm > -1e-5 ? [x, y] : null;
    }
    const [fx, fy] = [(begin.by(x + hMm, y) - f) / hMm, (begin.by(x, y + hMm) - f) / hMm];
    const [gx, gy] = [(end.by(x + hMm, y) - g) / hMm, (end.by(x, y + hMm) - g) / hMm];
    const turned = fx * gy - fy * gx;
    if (Math.abs(turned) < 1e-3) return null;
    x -= (f * gy - g * fy) / turned;
    y -= (g * fx - f * gx) / turned;
  }
  return null;
}

function loopsOf(segments: Map<number, Segment>): Region {
  const region: Outline[] = [];
  for (const start of [...segments.keys()]) {
    const outline: Point[] = [];
    let side = start;
    for (let segment = segments.get(side); segment; segment = segments.get(side)) {
      segments.delete(side);
      outline.push(...segment.points);
      side = segment.end;
    }
    if (outline.length >= 3) region.push(outline);
  }
  return region;
}
