import type { View } from "../../../src/domain/photo/mapping/fitView.ts";
import { minus, type Vector } from "../../../src/domain/photo/mapping/rotation.ts";
import { inSpace } from "../../../src/domain/photo/mapping/surface.ts";
import type { MadeStoma } from "./scene.ts";

/** Place on the skin and height above it of a place in space: the inverse of the card's own coordinates. */
export function onSkin({ surface }: View, [x, y, z]: Vector): Vector {
  const bend = surface.bendPerMm;
  if (bend === 0) return [x, y, z];
  const [c, s] = [Math.cos(surface.acrossRad), Math.sin(surface.acrossRad)];
  const [across, along, up] = [c * x + s * y, c * y - s * x, z + 1 / bend];
  const onArc = Math.atan2(across, up) / bend;
  return [c * onArc - s * along, s * onArc + c * along, Math.hypot(across, up) - 1 / bend];
}

/** The base's radius in a direction. */
export function baseRadius({ radiusMm, waves }: MadeStoma, angle: number): number {
  return (
    radiusMm *
    (1 + waves.reduce((sum, { share, turn }, k) => sum + share * Math.cos((k + 2) * angle + turn), 0))
  );
}

/** Below 0 inside the stoma, above outside; about a distance in mm near its surface. */
export function beyondStoma(stoma: MadeStoma, [x, y, z]: Vector): number {
  const { heightMm, steep, full, overhang, lean, middle } = stoma;
  const t = z / heightMm;
  if (t >= 1) return Math.max(0.2, z - heightMm);
  const up = Math.max(0, t);
  const [dx, dy] = [x - middle[0] - lean[0] * z, y - middle[1] - lean[1] * z];
  const far = Math.sqrt(dx * dx + dy * dy);
  const profile = (1 - up ** steep) ** (1 / full) * (1 + overhang * Math.sin(Math.PI * up));
  const base = baseRadius(stoma, Math.atan2(dy, dx));
  return far - base * profile + dip(stoma, dx, dy, up) * Math.min(1, up * 4);
}

/** Where the bowel opens, the top falls in: told as a place outside of the solid. */
function dip({ tipDepth, tipOff, radiusMm, heightMm }: MadeStoma, dx: number, dy: number, t: number): number {
  const off = Math.hypot(dx - tipOff[0], dy - tipOff[1]) / (0.28 * radiusMm);
  if (off > 2.5) return 0;
  return t > 1 - tipDepth * 2 * Math.exp(-off * off) ? 0.6 * heightMm * Math.exp(-off * off) + 1 : 0;
}

/** Distance along a ray to the stoma; null where it passes. `from` and `along` in space. */
export function stomaMet(
  view: View,
  stoma: MadeStoma,
  from: Vector,
  along: Vector,
  near: number,
  far: number,
  stepMm = 0.5,
): number | null {
  let last = near;
  for (let reach = near; reach <= far; reach += stepMm) {
    if (isInside(view, stoma, from, along, reach)) return refined(view, stoma, from, along, last, reach);
    last = reach;
  }
  return null;
}

function isInside(view: View, stoma: MadeStoma, from: Vector, along: Vector, reach: number): boolean {
  const place = onSkin(view, at(from, along, reach));
  return place[2] > 0 && place[2] < stoma.heightMm && beyondStoma(stoma, place) < 0;
}

function refined(
  view: View,
  stoma: MadeStoma,
  from: Vector,
  along: Vector,
  outside: number,
  inside: number,
): number {
  let [out, within] = [outside, inside];
  for (let round = 0; round < 8; round++) {
    const half = (out + within) / 2;
    if (isInside(view, stoma, from, along, half)) within = half;
    else out = half;
  }
  return within;
}

export function at(from: Vector, along: Vector, reach: number): Vector {
  return [from[0] + reach * along[0], from[1] + reach * along[1], from[2] + reach * along[2]];
}

/** The stretch of a ray that may meet the stoma. */
export function nearStoma(
  view: View,
  stoma: MadeStoma,
  from: Vector,
  along: Vector,
): [number, number] | null {
  const centre = inSpace(view.surface, [stoma.middle[0], stoma.middle[1]], stoma.heightMm / 2);
  const radius = Math.hypot(stoma.radiusMm * 1.35, stoma.heightMm / 2) + 3;
  const to = minus(centre, from);
  const middle = to[0] * along[0] + to[1] * along[1] + to[2] * along[2];
  const off = to[0] ** 2 + to[1] ** 2 + to[2] ** 2 - middle * middle;
  if (off > radius * radius) return null;
  const half = Math.sqrt(radius * radius - off);
  return [middle - half, middle + half];
}
