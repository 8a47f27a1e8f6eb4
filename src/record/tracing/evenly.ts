import { type Outline, type Point, perimeterMm } from "../../domain/outline/index.ts";

/** `count` points at equal distances along a closed line, from its first point on. */
export function evenlySpaced(outline: Outline, count: number): Outline {
  const stepMm = perimeterMm(outline) / count;
  const points: Point[] = [];
  let walked = 0;
  for (let i = 0; i < outline.length; i += 1) {
    const [ax, ay] = outline[i]!;
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const edgeMm = Math.hypot(bx - ax, by - ay);
    while (points.length < count && points.length * stepMm <= walked + edgeMm) {
      const share = edgeMm === 0 ? 0 : (points.length * stepMm - walked) / edgeMm;
      points.push([ax + share * (bx - ax), ay + share * (by - ay)]);
    }
    walked += edgeMm;
  }
  return points;
}

/** The outline with points added on its edges so that none is longer than `mostMm`. */
export function withoutLongEdges(outline: Outline, mostMm: number): Outline {
  return outline.flatMap(([ax, ay], i): Point[] => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const parts = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / mostMm));
    return Array.from({ length: parts }, (_, part) => [
      ax + (part / parts) * (bx - ax),
      ay + (part / parts) * (by - ay),
    ]);
  });
}
