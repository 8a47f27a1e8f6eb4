import svgpath from "svgpath";
import type { Point } from "../../../domain/outline/index.ts";
import { unreadable } from "../unreadable.ts";

/** A chord may leave its curve by this; with arcs drawn as cubics, a line up to 100 mm across keeps 0.02 mm. */
const chordToleranceMm = 0.005;
const mostChords = 2000;
const mostPoints = 200_000;
/** Nothing that is worn on a body is a hundred metres long. */
const farthestMm = 100_000;

/**
 * The lines that path data draws, as points in millimetres.
 *
 * @param transforms SVG transform lists from the element outward
 * @throws UnreadableTracing for path data that cannot be read to its end
 */
export function flattenPath(
  data: string,
  transforms: readonly string[],
  toMillimetres: readonly number[],
): Point[][] {
  const moved = parsed(data);
  for (const transform of transforms) moved.transform(transform);
  moved.matrix([...toMillimetres]).abs();
  // Written out and read back: after a mirroring, the library's own arc flags no longer mean what they say.
  return linesOf(parsed(moved.toString()).unshort().unarc());
}

function parsed(data: string): ReturnType<typeof svgpath> {
  const path = svgpath(data) as ReturnType<typeof svgpath> & { err: string };
  if (path.err) {
    unreadable("pathData", `The file has a path that breaks off: ${path.err.replace(/^SvgPath: /, "")}.`);
  }
  return path;
}

function linesOf(path: ReturnType<typeof svgpath>): Point[][] {
  const lines: Point[][] = [];
  let line: Point[] = [];
  let count = 0;
  const go = (x: number, y: number) => {
    if (!(Math.abs(x) < farthestMm) || !(Math.abs(y) < farthestMm)) {
      unreadable("tooFar", "The file has a point that lies absurdly far out, so its scale cannot be right.");
    }
    if (++count > mostPoints) unreadable("tooManyPoints", "The file has too many points for an outline.");
    line.push([x, y]);
  };
  path.iterate((segment, _index, x, y) => {
    switch (segment[0]) {
      case "M":
        line = [];
        lines.push(line);
        go(segment[1], segment[2]);
        break;
      case "Z":
      case "z": {
        const start = line[0];
        if (!start) break;
        go(start[0], start[1]);
        line = [[...start]];
        lines.push(line);
        break;
      }
      case "C":
        curve(
          [
            [x, y],
            [segment[1], segment[2]],
            [segment[3], segment[4]],
            [segment[5], segment[6]],
          ],
          go,
        );
        break;
      case "Q":
        curve(
          [
            [x, y],
            [segment[1], segment[2]],
            [segment[3], segment[4]],
          ],
          go,
        );
        break;
      case "L":
        go(segment[1], segment[2]);
        break;
      case "H":
        go(segment[1], y);
        break;
      case "V":
        go(x, segment[1]);
        break;
      default:
        unreadable("pathData", `The file has a path command that is not read: ${segment[0]}.`);
    }
  });
  return lines.filter(({ length }) => length > 1);
}

/**
 * Points along a Bézier curve, without its first, at equal steps of its parameter: as many as keep every chord
 * within the tolerance.
 *
 * @source Wang, Shen et al. 1984: chords ≤ √(d(d−1)/8 · greatest second difference ÷ tolerance)
 */
function curve(controls: readonly Point[], go: (x: number, y: number) => void): void {
  const degree = controls.length - 1;
  let bend = 0;
  for (let i = 0; i + 2 < controls.length; i += 1) {
    const [a, b, c] = [controls[i]!, controls[i + 1]!, controls[i + 2]!];
    bend = Math.max(bend, Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]));
  }
  const needed = Math.ceil(Math.sqrt((degree * (degree - 1) * bend) / (8 * chordToleranceMm)));
  const chords = Math.min(mostChords, Math.max(1, needed));
  for (let chord = 1; chord <= chords; chord += 1) go(...along(controls, chord / chords));
}

/** De Casteljau's construction. */
function along(controls: readonly Point[], share: number): [number, number] {
  let left = controls;
  while (left.length > 1) {
    left = left.slice(1).map(([x, y], i): Point => {
      const [fromX, fromY] = left[i]!;
      return [fromX + share * (x - fromX), fromY + share * (y - fromY)];
    });
  }
  const [x, y] = left[0]!;
  return [x, y];
}
