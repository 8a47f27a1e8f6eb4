import type { Point } from "../outline/index.ts";

/** How far a place is from breaking one rule, mm; negative where it breaks it. Never changes faster than the place moves. */
export type SlackMm = (x: number, y: number) => number;

export interface Box {
  left: number;
  right: number;
  foot: number;
  head: number;
}

export interface HighestPoint {
  at: Point;
  slackMm: number;
}

/** What is sought: the greatest smallest slack of `of`, where no slack of `within` is negative. */
export interface Sought {
  /** Squares that hold every place in question, each with the slacks that may be the least in it. */
  cells: readonly Cell[];
  /** What is less is not worth finding. */
  leastMm?: number;
  /** Stop at the first place that has this much. */
  enoughMm?: number;
}

/** A square part of the map with the slacks that matter in it. */
export interface Cell {
  x: number;
  y: number;
  halfMm: number;
  of: readonly SlackMm[];
  within: readonly SlackMm[];
}

/** Places this close in slack are not told apart. */
export const toleranceMm = 0.02;
/** A map far larger than a body is searched as finely as its size allows. */
const toleranceShare = 5e-5;
/** Where a strip is thinner than this share of the tolerance, no place in it is found. */
const thinnestShare = 1 / 8;
const mostCells = 50_000;

/**
 * The place with the greatest smallest slack, to `toleranceMm`: by halving squares and dropping each whose every
 * place is known to be worse than the best one found, as slack changes by no more than the distance. Null where
 * `within` leaves no place, or none with `leastMm`.
 *
 * Of a region between limits this is its pole of inaccessibility.
 * @source Garcia-Castellanos & Lombardo 2007, Scottish Geographical Journal 123:227 (the notion, not the method)
 */
export function highestPoint({
  cells,
  leastMm = Number.NEGATIVE_INFINITY,
  enoughMm = Number.POSITIVE_INFINITY,
}: Sought): HighestPoint | null {
  let best: HighestPoint | null = null;
  let left = [...cells];
  const stepMm = Math.max(toleranceMm, (left[0]?.halfMm ?? 0) * 2 * toleranceShare);
  while (left.length > 0) {
    const open: { cell: Cell; boundMm: number }[] = [];
    for (const cell of left) {
      const reachMm = reachOf(cell);
      const inside = slacksAt(cell.within, cell);
      if (inside.leastMm + reachMm < 0) continue;
      const slack = slacksAt(cell.of, cell);
      const worth = inside.leastMm >= 0 && slack.leastMm >= leastMm;
      if (worth && slack.leastMm > (best?.slackMm ?? Number.NEGATIVE_INFINITY)) {
        best = { at: [cell.x, cell.y], slackMm: slack.leastMm };
        if (best.slackMm >= enoughMm) return best;
      }
      if (reachMm < stepMm * thinnestShare || slack.leastMm + reachMm < leastMm) continue;
      open.push({
        cell: { ...cell, of: slack.upTo(slack.leastMm + 2 * reachMm), within: inside.upTo(reachMm) },
        boundMm: slack.leastMm + reachMm,
      });
    }
    const worthMm = (best?.slackMm ?? Number.NEGATIVE_INFINITY) + stepMm;
    const better = open.filter(({ boundMm }) => boundMm > worthMm);
    if (better.length > mostCells) better.sort((a, b) => b.boundMm - a.boundMm).length = mostCells;
    left = better.flatMap(({ cell }) => quarters(cell));
  }
  return best;
}

/** The map as one square. */
export function rootCell({ left, right, foot, head }: Box, of: readonly SlackMm[]): Cell {
  return {
    x: (left + right) / 2,
    y: (foot + head) / 2,
    halfMm: Math.max(right - left, head - foot) / 2,
    of,
    within: [],
  };
}

/** The map in squares where all slacks may be 0 or more, halved so many times. */
export function coarseCells(root: Cell, halvings: number): Cell[] {
  let cells = [root];
  for (let level = 0; ; level += 1) {
    const open = cells.flatMap((cell) => {
      const slack = slacksAt(cell.of, cell);
      const reachMm = reachOf(cell);
      if (slack.leastMm + reachMm < 0) return [];
      return [{ ...cell, of: slack.upTo(slack.leastMm + 2 * reachMm) }];
    });
    if (level === halvings) return open;
    cells = open.flatMap(quarters);
  }
}

/** From the middle of a square to its corners. */
export function reachOf({ halfMm }: Cell): number {
  return halfMm * Math.SQRT2;
}

export function quarters({ x, y, halfMm, of, within }: Cell): Cell[] {
  const half = halfMm / 2;
  return [
    { x: x - half, y: y - half, halfMm: half, of, within },
    { x: x + half, y: y - half, halfMm: half, of, within },
    { x: x - half, y: y + half, halfMm: half, of, within },
    { x: x + half, y: y + half, halfMm: half, of, within },
  ];
}

interface Slacks {
  leastMm: number;
  /** Those with a slack of at most so much. */
  upTo(limitMm: number): readonly SlackMm[];
}

function slacksAt(slacks: readonly SlackMm[], { x, y }: Cell): Slacks {
  const values = new Float64Array(slacks.length);
  let leastMm = Number.POSITIVE_INFINITY;
  for (let at = 0; at < values.length; at += 1) {
    const value = slacks[at]!(x, y);
    values[at] = value;
    if (value < leastMm) leastMm = value;
  }
  return {
    leastMm,
    upTo(limitMm) {
      const kept: SlackMm[] = [];
      for (let at = 0; at < values.length; at += 1) if (values[at]! <= limitMm) kept.push(slacks[at]!);
      return kept;
    },
  };
}
