import { intersection, type Outline, outlineOf, type Point, signedAreaMm2 } from "../outline/index.ts";
import { kindFacts, type RuleKind, type SitingPosture } from "./kinds.ts";

import type { Rule } from "./rules.ts";
import type { Siting } from "./siting.ts";

/** How even the skin is where the barrier would lie, over all postures together. */
export interface Footprint {
  /** The widest round barrier that would cross nothing uneven; null where nothing uneven is marked. */
  flatAcrossMm: number | null;
  /** What crosses the barrier that was named; null where none was. */
  crossing: Crossing[] | null;
}

/** One uneven landmark under the barrier. */
export interface Crossing {
  to: string;
  kind: RuleKind;
  posture: SitingPosture | null;
  /** How far in from the barrier's edge it comes. */
  depthMm: number;
  /** Length of it under the barrier; null where it is a point or an area. */
  lengthMm: number | null;
  /** Area of it under the barrier; null where it is a point or a line. */
  areaMm2: number | null;
}

/** @param at where the middle of the barrier would lie */
export function footprintAt(siting: Siting, at: Point): Footprint {
  const uneven = siting.rules.filter(({ kind }) => kindFacts[kind].uneven);
  const { barrierDiameterMm } = siting.question;
  const flatMm = Math.min(...uneven.map((rule) => Math.max(0, rule.distanceMm(...at))));
  return {
    flatAcrossMm: Number.isFinite(flatMm) ? 2 * flatMm : null,
    crossing:
      barrierDiameterMm === undefined
        ? null
        : uneven.flatMap((rule) => crossingOf(rule, at, barrierDiameterMm / 2) ?? []),
  };
}

function crossingOf(rule: Rule, at: Point, radiusMm: number): Crossing | null {
  const depthMm = radiusMm - rule.distanceMm(...at);
  if (depthMm <= 0) return null;
  const { shape } = rule.landmark;
  const { to, kind, posture } = rule;
  return {
    to,
    kind,
    posture,
    depthMm,
    lengthMm: "line" in shape && shape.line.length > 1 ? lengthInside(shape.line, at, radiusMm) : null,
    areaMm2: "area" in shape ? areaInside(shape.area, at, radiusMm) : null,
  };
}

/** Length of a line inside a circle, in closed form piece by piece. */
export function lengthInside(line: readonly Point[], [cx, cy]: Point, radiusMm: number): number {
  return line.slice(1).reduce((sum, [bx, by], at) => {
    const [ax, ay] = line[at]!;
    const [dx, dy] = [bx - ax, by - ay];
    const long = Math.hypot(dx, dy);
    if (long === 0) return sum;
    const foot = ((cx - ax) * dx + (cy - ay) * dy) / long;
    const awaySquared = (cx - ax) ** 2 + (cy - ay) ** 2 - foot ** 2;
    if (awaySquared >= radiusMm ** 2) return sum;
    const half = Math.sqrt(radiusMm ** 2 - awaySquared);
    return sum + Math.max(0, Math.min(long, foot + half) - Math.max(0, foot - half));
  }, 0);
}

function areaInside(area: Outline, [x, y]: Point, radiusMm: number): number {
  const circle = outlineOf({ guide: { shape: "round", diameterMm: 2 * radiusMm } });
  const moved = circle.map(([px, py]): Point => [px + x, py + y]);
  return Math.abs(intersection([area], [moved]).reduce((sum, part) => sum + signedAreaMm2(part), 0));
}
