import type { Outline, Point } from "../../domain/outline/index.ts";

/** The loop must hold this share of what was drawn; a smaller one is not what the hand meant. */
const leastShare = 0.7;

/**
 * A line drawn by hand round something, as the loop it makes. A hand that goes past its start leaves two tails that
 * cross: they are cut off where they do. A line whose ends do not meet stays as it is, to be closed by a straight
 * edge; one that crosses itself elsewhere stays too, to be refused with the place.
 */
export function drawnLoop(line: readonly Point[]): Outline {
  const crossing = tailCrossing(line);
  return crossing ? [crossing.at, ...line.slice(crossing.first + 1, crossing.second + 1)] : line;
}

/** The crossing that leaves the longest loop between its two strands. */
function tailCrossing(line: readonly Point[]): { first: number; second: number; at: Point } | null {
  for (let length = line.length - 2; length >= leastShare * line.length; length -= 1) {
    for (let first = 0; first + length < line.length - 1; first += 1) {
      const at = meeting(line[first]!, line[first + 1]!, line[first + length]!, line[first + length + 1]!);
      if (at) return { first, second: first + length, at };
    }
  }
  return null;
}

/** Where two edges cross; null where they do not. */
function meeting(a: Point, b: Point, c: Point, d: Point): Point | null {
  const [abX, abY, cdX, cdY] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = abX * cdY - abY * cdX;
  if (cross === 0) return null;
  const alongAb = ((c[0] - a[0]) * cdY - (c[1] - a[1]) * cdX) / cross;
  const alongCd = ((c[0] - a[0]) * abY - (c[1] - a[1]) * abX) / cross;
  if (alongAb < 0 || alongAb > 1 || alongCd < 0 || alongCd > 1) return null;
  return [a[0] + alongAb * abX, a[1] + alongAb * abY];
}
