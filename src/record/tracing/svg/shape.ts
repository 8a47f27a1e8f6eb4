import { unreadable } from "../unreadable.ts";
import { numberList, userUnits } from "./length.ts";

type Attributes = Readonly<Record<string, string>>;

/** Shapes that can be an outline, each as the path data that draws it. */
const pathOf: Record<string, (attributes: Attributes) => string> = {
  path: ({ d = "" }) => d,
  polygon: ({ points = "" }) => polyline(points, "Z"),
  polyline: ({ points = "" }) => polyline(points, ""),
  rect: (attributes) => rectangle(attributes),
  circle: ({ cx, cy, r }) => {
    const radius = userUnits(r, "r");
    return ellipse(userUnits(cx, "cx"), userUnits(cy, "cy"), radius, radius);
  },
  ellipse: ({ cx, cy, rx, ry }) => {
    const [across, down] = bothRadii(rx, ry);
    return ellipse(userUnits(cx, "cx"), userUnits(cy, "cy"), across, down);
  },
};

/** Path data of a shape in user units, "" for one that draws nothing; null where the element is no shape. */
export function shapePath(element: string, attributes: Attributes): string | null {
  if (!Object.hasOwn(pathOf, element)) return null;
  return pathOf[element]!(attributes);
}

function polyline(points: string, end: string): string {
  const numbers = numberList(points);
  if (!numbers || numbers.length % 2 === 1) {
    return unreadable(
      "points",
      `The file has a list of points that is not pairs of numbers: “${points.slice(0, 40)}”.`,
    );
  }
  return numbers.length < 2 ? "" : `M${numbers.join(" ")}${end}`;
}

function ellipse(x: number, y: number, across: number, down: number): string {
  if (!(across > 0) || !(down > 0)) return "";
  const half = `A${across} ${down} 0 1 0`;
  return `M${x - across} ${y}${half} ${x + across} ${y}${half} ${x - across} ${y}Z`;
}

function rectangle({ x, y, width, height, rx, ry }: Attributes): string {
  const [left, top] = [userUnits(x, "x"), userUnits(y, "y")];
  const [wide, high] = [userUnits(width, "width"), userUnits(height, "height")];
  if (!(wide > 0) || !(high > 0)) return "";
  const [given, givenDown] = bothRadii(rx, ry);
  const [across, down] = [Math.min(given, wide / 2), Math.min(givenDown, high / 2)];
  if (!(across > 0) || !(down > 0)) return `M${left} ${top}h${wide}v${high}h${-wide}Z`;
  const corner = (dx: number, dy: number) => `a${across} ${down} 0 0 1 ${dx} ${dy}`;
  return [
    `M${left + across} ${top}h${wide - 2 * across}${corner(across, down)}`,
    `v${high - 2 * down}${corner(-across, down)}`,
    `h${-(wide - 2 * across)}${corner(-across, -down)}`,
    `v${-(high - 2 * down)}${corner(across, -down)}Z`,
  ].join("");
}

/** One radius alone stands for both. */
function bothRadii(rx: string | undefined, ry: string | undefined): [number, number] {
  const given = (text: string | undefined) => text !== undefined && text.trim() !== "auto";
  const across = given(rx) ? rx : ry;
  const down = given(ry) ? ry : rx;
  return [given(across) ? userUnits(across, "rx") : 0, given(down) ? userUnits(down, "ry") : 0];
}
