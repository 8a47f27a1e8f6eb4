/** Edges a block; a block whose circle is farther off than the best edge so far need not be looked at. */
const blockSize = 12;

/** Circles round runs of consecutive edges of a closed line. */
export function edgeBlocks(xs: ArrayLike<number>, ys: ArrayLike<number>) {
  const edgeCount = xs.length;
  const blockCount = Math.ceil(edgeCount / blockSize);
  const firstEdge = (block: number) => Math.min(edgeCount, block * blockSize);
  const centreX = new Float64Array(blockCount);
  const centreY = new Float64Array(blockCount);
  const radius = new Float64Array(blockCount);
  for (let block = 0; block < blockCount; block += 1) {
    let left = Number.POSITIVE_INFINITY;
    let right = Number.NEGATIVE_INFINITY;
    let bottom = Number.POSITIVE_INFINITY;
    let top = Number.NEGATIVE_INFINITY;
    for (let at = firstEdge(block); at <= firstEdge(block + 1); at += 1) {
      const x = xs[at < edgeCount ? at : 0]!;
      const y = ys[at < edgeCount ? at : 0]!;
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < bottom) bottom = y;
      if (y > top) top = y;
    }
    centreX[block] = (left + right) / 2;
    centreY[block] = (bottom + top) / 2;
    radius[block] = Math.hypot(right - left, top - bottom) / 2;
  }

  /** Whether any edge of a block can be nearer to a place than the reach. */
  function within(block: number, x: number, y: number, reach: number): boolean {
    const dx = x - centreX[block]!;
    const dy = y - centreY[block]!;
    const far = reach + radius[block]!;
    return dx * dx + dy * dy < far * far;
  }

  function nearestCentre(x: number, y: number): number {
    let nearest = 0;
    let squared = Number.POSITIVE_INFINITY;
    for (let block = 0; block < blockCount; block += 1) {
      const dx = x - centreX[block]!;
      const dy = y - centreY[block]!;
      const candidate = dx * dx + dy * dy;
      if (candidate < squared) {
        squared = candidate;
        nearest = block;
      }
    }
    return nearest;
  }

  return { blockCount, firstEdge, within, nearestCentre };
}
