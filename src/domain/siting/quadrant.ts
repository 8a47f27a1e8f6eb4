import type { Point } from "../outline/index.ts";
import { besideLine, fromRegion } from "./distance.ts";
import type { SlackMm } from "./search.ts";
import type { Siting, SitingQuestion } from "./siting.ts";

export const quadrants = ["rightLower", "leftLower", "rightUpper", "leftUpper"] as const;
export type Quadrant = (typeof quadrants)[number];

export const quadrantWords: Record<Quadrant, string> = {
  rightLower: "right lower quadrant",
  leftLower: "left lower quadrant",
  rightUpper: "right upper quadrant",
  leftUpper: "left upper quadrant",
};

/**
 * Where to look, first choice first: the side by the procedure, lower unless the abdomen is large; then the same side
 * on the other level, then the other side. A surgeon's own choice stands alone at the head.
 *
 * @source Stoma site marking procedure quick reference (WOCN): colostomy left, ileostomy right; CUA 2022 p. 15: ileal
 * conduit right lower; table 2: upper where the abdomen is large
 */
export function quadrantOrder({ stomaType, quadrant, largeAbdomen = false }: SitingQuestion): Quadrant[] {
  const usual = stomaType === "colostomy" ? "left" : "right";
  const levels = largeAbdomen ? (["Upper", "Lower"] as const) : (["Lower", "Upper"] as const);
  const other = usual === "left" ? "right" : "left";
  const order = [usual, other].flatMap((side) => levels.map((level) => `${side}${level}` as Quadrant));
  return quadrant ? [quadrant, ...order.filter((one) => one !== quadrant)] : order;
}

export function quadrantAt({ midline }: Pick<Siting, "midline">, [x, y]: Point): Quadrant {
  const side = fromRegion([besideLine(midline, "left")])(x, y) <= 0 ? "left" : "right";
  return `${side}${y >= 0 ? "Upper" : "Lower"}`;
}

/** How deep in a quadrant a place lies, as slacks. */
export function insideQuadrant({ midline }: Pick<Siting, "midline">, quadrant: Quadrant): SlackMm[] {
  const left = quadrant === "leftLower" || quadrant === "leftUpper";
  const upper = quadrant === "leftUpper" || quadrant === "rightUpper";
  const side = fromRegion([besideLine(midline, left ? "left" : "right")]);
  return [(x, y) => -side(x, y), (_x, y) => (upper ? y : -y)];
}
