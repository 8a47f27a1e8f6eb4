import { centroidMm, mirror, moved, type Outline, type Point } from "../../domain/outline/index.ts";

/** How a tracing lies: what has to be done to it to see it as somebody who faces the person does. */
export interface Placing {
  /** Turn, clockwise as seen on the page, in degrees, that brings the head side up. */
  turnDeg: number;
  /** Traced from the skin side, or through a sheet that was turned over: left and right change places first. */
  mirrored: boolean;
  /** Corrects a known error of scale; 1 leaves it. */
  scale: number;
}

export const asDrawn: Placing = { turnDeg: 0, mirrored: false, scale: 1 };

/** The outline mirrored, turned and scaled about its centroid, which comes to lie at (0, 0). */
export function placed(outline: Outline, { turnDeg, mirrored, scale }: Placing): Outline {
  const seen = mirrored ? mirror(outline) : outline;
  const [x, y] = centroidMm(seen);
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn) * scale, Math.sin(turn) * scale];
  return moved(seen, [-x, -y]).map(([dx, dy]): Point => [dx * cos + dy * sin, dy * cos - dx * sin]);
}
