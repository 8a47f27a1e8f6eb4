import type { Point } from "../../outline/index.ts";

/** An outline as its distance from a middle, one a ray; the first ray runs along x, the others counterclockwise. */
export interface PolarOutline {
  middle: Point;
  radiiMm: Float64Array;
}

export function direction(ray: number, rays: number): readonly [number, number] {
  const angle = (2 * Math.PI * ray) / rays;
  return [Math.cos(angle), Math.sin(angle)];
}

export function pointsOf({ middle: [x, y], radiiMm }: PolarOutline): Point[] {
  return Array.from(radiiMm, (radius, ray): Point => {
    const [c, s] = direction(ray, radiiMm.length);
    return [x + radius * c, y + radius * s];
  });
}

/** Distance along the ray from the outline inward: positive inside. */
export function insideOf({ middle: [mx, my], radiiMm }: PolarOutline): (xMm: number, yMm: number) => number {
  const rays = radiiMm.length;
  return (x, y) => {
    const turn = Math.atan2(y - my, x - mx) / (2 * Math.PI);
    const place = (turn - Math.floor(turn)) * rays;
    const ray = Math.floor(place) % rays;
    const share = place - Math.floor(place);
    const radius = (1 - share) * radiiMm[ray]! + share * radiiMm[(ray + 1) % rays]!;
    return radius - Math.hypot(x - mx, y - my);
  };
}

/** Even turns of a smooth closed curve through scattered radii: low waves rule, high ones must be well supported. */
export function smoothed(
  radii: Float64Array,
  trust: Float64Array,
  { waves, rigidity }: { waves: number; rigidity: number },
  solve: (matrix: Float64Array, right: Float64Array) => Float64Array | null,
): Float64Array {
  const rays = radii.length;
  const terms = 2 * waves + 1;
  const normal = new Float64Array(terms * terms);
  const right = new Float64Array(terms);
  const rows = Array.from({ length: rays }, (_, ray) => waveTerms(ray, rays, waves));
  rows.forEach((row, ray) => {
    for (let i = 0; i < terms; i++) {
      for (let j = 0; j < terms; j++) normal[i * terms + j]! += trust[ray]! * row[i]! * row[j]!;
      right[i]! += trust[ray]! * row[i]! * radii[ray]!;
    }
  });
  for (let wave = 1; wave <= waves; wave++) {
    const penalty = rigidity * rays * wave ** 4 + 1e-9;
    for (const term of [2 * wave - 1, 2 * wave]) normal[term * terms + term]! += penalty;
  }
  const found = solve(normal, right);
  if (found === null) return radii;
  return Float64Array.from(rows, (row) => row.reduce((sum, term, k) => sum + term * found[k]!, 0));
}

function waveTerms(ray: number, rays: number, waves: number): number[] {
  const angle = (2 * Math.PI * ray) / rays;
  return [
    1,
    ...Array.from({ length: waves }, (_, k) => [Math.cos((k + 1) * angle), Math.sin((k + 1) * angle)]).flat(),
  ];
}
