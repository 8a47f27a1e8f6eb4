/** Cost of the outline's passing each radius on each ray: rays one after the other, `radii` costs each. */
export interface PolarCosts {
  rays: number;
  radii: number;
  costs: Float32Array;
}

/** Radii the path may move from one ray to the next. */
const mostStep = 4;

/**
 * The closed way round that costs least, one radius a ray; a change of radius costs `stiffness` times its square.
 * Goes round twice and takes the second half of the first turn and the first of the second, which no longer know
 * where the search began; then once more from there, so that the ends meet.
 */
export function closedPath({ rays, radii, costs }: PolarCosts, stiffness: number): Int32Array {
  const open = openPath((ray) => ray % rays, 2 * rays, { rays, radii, costs }, stiffness, null);
  const start = rays >> 1;
  const through = open[start + rays - (rays >> 2)]!;
  const first = (start + rays - (rays >> 2)) % rays;
  const closed = openPath(
    (ray) => (first + ray) % rays,
    rays + 1,
    { rays, radii, costs },
    stiffness,
    through,
  );
  const path = new Int32Array(rays);
  for (let ray = 0; ray < rays; ray++) path[(first + ray) % rays] = closed[ray]!;
  return path;
}

function openPath(
  rayAt: (step: number) => number,
  steps: number,
  { radii, costs }: PolarCosts,
  stiffness: number,
  through: number | null,
): Int32Array {
  const from = new Int8Array(steps * radii);
  let before = new Float64Array(radii);
  for (let r = 0; r < radii; r++) {
    before[r] = through === null || r === through ? costs[rayAt(0) * radii + r]! : Number.POSITIVE_INFINITY;
  }
  for (let step = 1; step < steps; step++) {
    const now = new Float64Array(radii);
    const offset = rayAt(step) * radii;
    for (let r = 0; r < radii; r++) {
      let least = Number.POSITIVE_INFINITY;
      let move = 0;
      for (let d = -mostStep; d <= mostStep; d++) {
        const last = r + d;
        if (last < 0 || last >= radii) continue;
        const cost = before[last]! + stiffness * d * d;
        if (cost < least) {
          least = cost;
          move = d;
        }
      }
      now[r] = least + costs[offset + r]!;
      from[step * radii + r] = move;
    }
    before = now;
  }
  let r = through ?? before.indexOf(Math.min(...before));
  const path = new Int32Array(steps);
  for (let step = steps - 1; step >= 0; step--) {
    path[step] = r;
    r += from[step * radii + r]!;
  }
  return path;
}
