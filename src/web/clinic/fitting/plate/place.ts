import type { PointerEvent } from "react";
import type { Point } from "../../../../domain/outline/index.ts";

/** Where a pointer is on the plate, px of the drawing. */
export function placeOf(event: PointerEvent<SVGElement>): Point {
  const svg = event.currentTarget.ownerSVGElement ?? event.currentTarget;
  const { left, top } = svg.getBoundingClientRect();
  return [event.clientX - left, event.clientY - top];
}
