import { clockDirection, clockHourAt, type Outline, onClock, type Point } from "../outline/index.ts";

/** A straight piece of an outline that lies within one clock hour, 15° to each side of its ray. */
export interface Piece {
  /** 1 to 12. */
  hour: number;
  from: Point;
  to: Point;
}

/** Cuts an outline where the rays half-way between the hours, from the centre, meet it. */
export function piecesByHour(outline: Outline, centre: Point): Piece[] {
  return outline.flatMap((from, at) => edgePieces(from, outline[(at + 1) % outline.length]!, centre));
}

/**
 * Area of a region in each clock hour about a centre, hour h at index h - 1. Exact: each piece of its edges
 * spans a triangle with the centre that lies within one hour.
 *
 * @param region outer edges counterclockwise, holes clockwise
 */
export function areaByHourMm2(region: readonly Outline[], centre: Point): Float64Array {
  const areas = new Float64Array(12);
  for (const outline of region) {
    for (const { hour, from, to } of piecesByHour(outline, centre)) {
      const [ax, ay] = [from[0] - centre[0], from[1] - centre[1]];
      const [bx, by] = [to[0] - centre[0], to[1] - centre[1]];
      areas[hour - 1]! += (ax * by - ay * bx) / 2;
    }
  }
  return areas;
}

function edgePieces(from: Point, to: Point, centre: Point): Piece[] {
  const start = clockHourAt(from, centre);
  const end = start + shortWay(clockHourAt(to, centre) - start);
  const pieces: Piece[] = [];
  let [lastHour, lastPoint] = [start, from];
  for (const ray of raysBetween(start, end)) {
    const cut = onRay(from, to, centre, ray);
    pieces.push({ hour: wholeHour((lastHour + ray) / 2), from: lastPoint, to: cut });
    [lastHour, lastPoint] = [ray, cut];
  }
  pieces.push({ hour: wholeHour((lastHour + end) / 2), from: lastPoint, to });
  return pieces;
}

/** Hours swept between two directions less than half a turn apart. */
function shortWay(hours: number): number {
  return hours > 6 ? hours - 12 : hours < -6 ? hours + 12 : hours;
}

/** The half hours between two hours, in the order in which they are passed. */
function raysBetween(start: number, end: number): number[] {
  const step = end > start ? 1 : -1;
  const first = step > 0 ? Math.floor(start + 0.5) + 0.5 : Math.ceil(start - 0.5) - 0.5;
  const count = Math.max(0, Math.ceil((end - first) * step));
  return Array.from({ length: count }, (_, passed) => first + passed * step);
}

/** Where the line through two points meets the ray of an hour. */
function onRay(from: Point, to: Point, centre: Point, hour: number): Point {
  const [dx, dy] = clockDirection(hour);
  const sideFrom = dx * (from[1] - centre[1]) - dy * (from[0] - centre[0]);
  const sideTo = dx * (to[1] - centre[1]) - dy * (to[0] - centre[0]);
  const share = sideFrom / (sideFrom - sideTo);
  return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
}

function wholeHour(hour: number): number {
  return onClock(Math.round(hour));
}
