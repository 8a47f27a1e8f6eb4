import { centroidMm } from "./polygon.ts";
import type { Outline, Point } from "./shape.ts";

/**
 * Clock hours round a stoma: 12 toward the head, the viewer facing the person, 3 at the person's left.
 * Hours may be fractions; results lie above 0 and up to 12.
 */

/** The hour on the clock's face for any number of hours, 0 shown as 12. */
export function onClock(hour: number): number {
  const turned = ((hour % 12) + 12) % 12;
  return turned === 0 ? 12 : turned;
}

/** The hour in a mirror, on the liner side of a barrier, or on a used barrier seen from its skin side. */
export function mirrorHour(hour: number): number {
  return onClock(12 - hour);
}

/** The hour as the person sees it, looking down at the stoma: the head side is nearest the eye. */
export function selfViewHour(hour: number): number {
  return onClock(hour + 6);
}

/** The outline as its liner side shows it: left and right change places, head and foot stay. */
export function mirror(outline: Outline): Outline {
  return outline.map(([x, y]): Point => [x === 0 ? 0 : -x, y]).reverse();
}

/** The outline moved by an offset in mm. */
export function moved(outline: Outline, [dx, dy]: Point): Outline {
  return outline.map(([x, y]): Point => [x + dx, y + dy]);
}

/** The direction of a clock hour, length 1. */
export function clockDirection(hour: number): Point {
  const turn = (hour * Math.PI) / 6;
  return [Math.sin(turn), Math.cos(turn)];
}

/** The clock hour, with its fraction, at which a point lies as seen from a centre. */
export function clockHourAt([x, y]: Point, [centreX, centreY]: Point): number {
  return onClock((Math.atan2(x - centreX, y - centreY) * 6) / Math.PI);
}

/**
 * Distance from the centre to the outermost place where the ray at a clock hour meets the outline; null
 * where it meets none (a centre outside the outline). The centre is the centroid unless given.
 */
export function radiusAtClockHour(
  outline: Outline,
  hour: number,
  centre: Point = centroidMm(outline),
): number | null {
  const [dx, dy] = clockDirection(hour);
  let outermost: number | null = null;
  let [ax, ay] = relative(outline.at(-1)!, centre);
  let sideA = dx * ay - dy * ax;
  for (const point of outline) {
    const [bx, by] = relative(point, centre);
    const sideB = dx * by - dy * bx;
    if (sideA > 0 !== sideB > 0) {
      const along = sideA / (sideA - sideB);
      const radius = (ax + along * (bx - ax)) * dx + (ay + along * (by - ay)) * dy;
      if (radius >= 0 && (outermost === null || radius > outermost)) outermost = radius;
    }
    [ax, ay, sideA] = [bx, by, sideB];
  }
  return outermost;
}

function relative([x, y]: Point, [centreX, centreY]: Point): Point {
  return [x - centreX, y - centreY];
}
