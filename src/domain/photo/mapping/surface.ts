import type { Point } from "../../outline/index.ts";
import type { Vector } from "./rotation.ts";

/**
 * The skin under the card: a plane, or a cylinder that falls away on both sides of an axis through the card's centre.
 * Card coordinates run along the skin, so that a length on a bent card is the length of the paper.
 */
export interface Surface {
  /** 1 / radius; 0 is a plane. */
  bendPerMm: number;
  /** Direction in which the card bends, from the card's x axis. */
  acrossRad: number;
}

export const flat: Surface = { bendPerMm: 0, acrossRad: 0 };

/** Less bend than this (a radius of a hundred metres) is none. */
const leastBend = 1e-5;

/**
 * Place in space of a place on the card, `heightMm` above the skin: x and y as the flat card's, z out of the skin at
 * the card's centre. What stands on the skin stands along its own normal.
 */
export function inSpace({ bendPerMm, acrossRad }: Surface, [x, y]: Point, heightMm = 0): Vector {
  if (Math.abs(bendPerMm) < leastBend) return [x, y, heightMm];
  const [c, s] = [Math.cos(acrossRad), Math.sin(acrossRad)];
  const angle = (c * x + s * y) * bendPerMm;
  const onAxis = c * y - s * x;
  const fromAxis = 1 / bendPerMm + heightMm;
  const across = fromAxis * Math.sin(angle);
  return [c * across - s * onAxis, s * across + c * onAxis, fromAxis * Math.cos(angle) - 1 / bendPerMm];
}

/** Where a ray meets the skin, as a place on the card; null where it passes it by. */
export function whereMet({ bendPerMm, acrossRad }: Surface, from: Vector, along: Vector): Point | null {
  if (Math.abs(bendPerMm) < leastBend) {
    const reach = -from[2] / along[2];
    return reach > 0 ? [from[0] + reach * along[0], from[1] + reach * along[1]] : null;
  }
  const [c, s] = [Math.cos(acrossRad), Math.sin(acrossRad)];
  const radius = 1 / bendPerMm;
  const [fx, fy, fz] = [c * from[0] + s * from[1], c * from[1] - s * from[0], from[2] + radius];
  const [ax, ay, az] = [c * along[0] + s * along[1], c * along[1] - s * along[0], along[2]];
  const squares = ax * ax + az * az;
  const half = fx * ax + fz * az;
  const root = half * half - squares * (fx * fx + fz * fz - radius * radius);
  if (root < 0) return null;
  // Seen from outside a convex skin the nearer meeting counts, from inside a hollow the farther one.
  const reach = (-half - Math.sign(radius) * Math.sqrt(root)) / squares;
  const [mx, my, mz] = [fx + reach * ax, fy + reach * ay, fz + reach * az];
  const across = radius * Math.atan2(mx * Math.sign(radius), mz * Math.sign(radius));
  return [c * across - s * my, s * across + c * my];
}
