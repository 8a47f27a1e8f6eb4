/** Edges of a closed line by the horizontal bands they touch: a ray to the side looks only at its own band. */
export function edgeBands(xs: ArrayLike<number>, ys: ArrayLike<number>) {
  const count = xs.length;
  let bottom = Number.POSITIVE_INFINITY;
  let top = Number.NEGATIVE_INFINITY;
  for (let at = 0; at < count; at += 1) {
    const y = ys[at]!;
    if (y < bottom) bottom = y;
    if (y > top) top = y;
  }
  const bandCount = Math.max(1, Math.floor(count / 4));
  const perMm = bandCount / (top - bottom);
  const bandOf = (y: number) => Math.min(bandCount - 1, Math.floor((y - bottom) * perMm));
  const bands: number[][] = Array.from({ length: bandCount }, () => []);
  for (let edge = 0; edge < count; edge += 1) {
    const a = bandOf(ys[edge]!);
    const b = bandOf(ys[edge + 1 < count ? edge + 1 : 0]!);
    for (let band = Math.min(a, b); band <= Math.max(a, b); band += 1) bands[band]!.push(edge);
  }

  function contains(x: number, y: number): boolean {
    if (!(y >= bottom && y <= top)) return false;
    let inside = false;
    for (const edge of bands[bandOf(y)]!) {
      const next = edge + 1 < count ? edge + 1 : 0;
      const ay = ys[edge]!;
      const by = ys[next]!;
      if (ay > y === by > y) continue;
      if (x < xs[edge]! + ((y - ay) / (by - ay)) * (xs[next]! - xs[edge]!)) inside = !inside;
    }
    return inside;
  }

  return { contains };
}
