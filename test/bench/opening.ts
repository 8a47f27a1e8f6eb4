import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import { openingFor, parallelCurve } from "../../src/domain/opening/index.ts";
import { areaMm2, grown, type Outline, type Point } from "../../src/domain/outline/index.ts";

type Print = (line: string) => void;

const points = 400;
const clearanceMm = 2;
/** Sides a quarter circle that keep an arc of 2 mm within 0.0005 mm, as ours are. */
const quarterSides = 36;
const rounds = 5;
const roundMs = 300;

/**
 * Openings of 400 points a second at 2 mm clearance: the whole of `openingFor` (checks, offset, scissor path,
 * calliper widths), the offset alone, and the offset by two other libraries on the same outlines with arcs
 * as fine, by processor time. The libraries take turns, so that a busy machine is busy for all; medians of
 * five rounds.
 */
export function benchOpening(print: Print): void {
  for (const [name, outline] of Object.entries(outlines)) {
    const polygon = jstsPolygon(outline);
    const ways = {
      opening: () => openingFor({ stoma: { outline }, clearanceMm }),
      offset: () => parallelCurve(outline, clearanceMm),
      jsts: () => BufferOp.bufferOp(polygon, clearanceMm, quarterSides),
      clipper: () => grown([outline], clearanceMm),
    };
    const { opening, offset, jsts, clipper } = perSecond(ways);
    const apart = Math.abs(areaMm2(ways.offset()!) / ways.jsts().getArea() - 1);
    print(
      `${name}: whole opening ${shown(opening)}/s; offset alone ${shown(offset)}/s, ` +
        `jsts 2.12.1 ${shown(jsts)}/s (ours/jsts ${(offset / jsts).toFixed(1)}), ` +
        `clipper2-ts 2.0.1 ${shown(clipper)}/s (ours/clipper2-ts ${(offset / clipper).toFixed(1)}); ` +
        `areas of ours and jsts differ by ${(100 * apart).toFixed(4)} %`,
    );
  }
}

/** Stomas as a nurse meets them; the last as a shaky hand draws it. */
const outlines: Record<string, Outline> = {
  "oval 32 x 24 mm": closed((turn) => [16 * Math.cos(turn), 12 * Math.sin(turn)]),
  "lobed, smooth": polar((turn) => 15 + 1.2 * Math.cos(5 * turn) + 0.8 * Math.cos(3 * turn + 1)),
  "lobed, drawn with 0.05 mm of jitter": polar(
    (turn, at) => 15 + 1.2 * Math.cos(5 * turn) + 0.05 * jitter(at),
  ),
};

function polar(radiusMm: (turn: number, at: number) => number): Outline {
  return closed((turn, at) => [radiusMm(turn, at) * Math.cos(turn), radiusMm(turn, at) * Math.sin(turn)]);
}

function closed(place: (turn: number, at: number) => Point): Outline {
  return Array.from({ length: points }, (_, at) => place((2 * Math.PI * at) / points, at));
}

/** Always the same uneven numbers, of mean square 1. */
function jitter(at: number): number {
  const uneven = Math.sin(12.9898 * (at + 1)) * 43758.5453;
  return Math.sqrt(12) * (uneven - Math.floor(uneven) - 0.5);
}

function perSecond<K extends string>(ways: Record<K, () => unknown>): Record<K, number> {
  const names = Object.keys(ways) as K[];
  const figures = new Map(names.map((name) => [name, [] as number[]]));
  for (let round = 0; round < rounds; round += 1) {
    for (const name of names) figures.get(name)!.push(rate(ways[name]));
  }
  return Object.fromEntries(names.map((name) => [name, median(figures.get(name)!)])) as Record<K, number>;
}

/** Times a second of processor time, collecting garbage included: what other programs do at once counts little. */
function rate(work: () => unknown): number {
  const start = performance.now();
  const before = process.cpuUsage();
  let done = 0;
  while (performance.now() - start < roundMs) {
    work();
    done += 1;
  }
  const { user, system } = process.cpuUsage(before);
  return (1e6 * done) / (user + system);
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

function jstsPolygon(outline: Outline) {
  const ring = [...outline, outline[0]!].map(([x, y]) => new Coordinate(x, y));
  return new GeometryFactory().createPolygon(ring);
}

function shown(figure: number): string {
  return Math.round(figure).toLocaleString("en");
}
