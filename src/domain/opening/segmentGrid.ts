import type { Track } from "../outline/index.ts";

/** Where a segment is first crossed: at which share of its length, and of the other segment's. */
export interface Meeting {
  share: number;
  other: number;
  otherShare: number;
  x: number;
  y: number;
}

/**
 * Crossings this far behind, or beyond an end, still count, mm: three lines often meet in one point, and
 * rounding decides their order.
 */
const slackMm = 1e-7;
/** No more cells than this on a side. */
const maxCells = 160;

/** The segments of a closed line, sorted into square cells so that only neighbours are compared. */
export function segmentGrid({ xs, ys, count }: Track) {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  let lengthMm = 0;
  for (let at = 0; at < count; at += 1) {
    const x = xs[at]!;
    const y = ys[at]!;
    const next = at + 1 < count ? at + 1 : 0;
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < bottom) bottom = y;
    if (y > top) top = y;
    lengthMm += Math.abs(xs[next]! - x) + Math.abs(ys[next]! - y);
  }
  const cellMm = Math.max((2 * lengthMm) / count, (right - left) / maxCells, (top - bottom) / maxCells);
  const columns = Math.floor((right - left) / cellMm) + 1;
  const rows = Math.floor((top - bottom) / cellMm) + 1;

  const column = new Int16Array(count);
  const row = new Int16Array(count);
  for (let at = 0; at < count; at += 1) {
    column[at] = Math.floor((xs[at]! - left) / cellMm);
    row[at] = Math.floor((ys[at]! - bottom) / cellMm);
  }

  // A packed list: starts[cell] .. starts[cell + 1] are the segments whose box covers the cell.
  const starts = new Int32Array(columns * rows + 1);
  for (let segment = 0; segment < count; segment += 1) {
    const next = segment + 1 < count ? segment + 1 : 0;
    const [lastRow, lastColumn] = [
      Math.max(row[segment]!, row[next]!),
      Math.max(column[segment]!, column[next]!),
    ];
    for (let r = Math.min(row[segment]!, row[next]!); r <= lastRow; r += 1) {
      for (let c = Math.min(column[segment]!, column[next]!); c <= lastColumn; c += 1)
        starts[r * columns + c]! += 1;
    }
  }
  // Each start is now its cell's count; summed up it is the cell's end, and filling takes it back to its start.
  for (let cell = 1; cell <= columns * rows; cell += 1) starts[cell]! += starts[cell - 1]!;
  const members = new Int32Array(starts[columns * rows]!);
  for (let segment = 0; segment < count; segment += 1) {
    const next = segment + 1 < count ? segment + 1 : 0;
    const [lastRow, lastColumn] = [
      Math.max(row[segment]!, row[next]!),
      Math.max(column[segment]!, column[next]!),
    ];
    for (let r = Math.min(row[segment]!, row[next]!); r <= lastRow; r += 1) {
      for (let c = Math.min(column[segment]!, column[next]!); c <= lastColumn; c += 1) {
        starts[r * columns + c]! -= 1;
        members[starts[r * columns + c]!] = segment;
      }
    }
  }

  /**
   * The first segment that crosses this one from the share `from` of its length on, and there heads to the
   * wanted side (1 left, -1 right); null if none does.
   */
  function firstCrossing(segment: number, from: number, heading: 1 | -1): Meeting | null {
    const after = segment + 1 < count ? segment + 1 : 0;
    const before = segment > 0 ? segment - 1 : count - 1;
    const ax = xs[segment]!;
    const ay = ys[segment]!;
    const dx = xs[after]! - ax;
    const dy = ys[after]! - ay;
    const slack = slackMm / Math.sqrt(dx * dx + dy * dy);
    let nearest = 1 + slack;
    let other = -1;
    let nearestOtherShare = 0;
    const firstRow = Math.min(row[segment]!, row[after]!);
    const lastRow = Math.max(row[segment]!, row[after]!);
    const firstColumn = Math.min(column[segment]!, column[after]!);
    const lastColumn = Math.max(column[segment]!, column[after]!);
    for (let r = firstRow; r <= lastRow; r += 1) {
      for (let c = firstColumn; c <= lastColumn; c += 1) {
        const end = starts[r * columns + c + 1]!;
        for (let member = starts[r * columns + c]!; member < end; member += 1) {
          const candidate = members[member]!;
          const candidateEnd = candidate + 1 < count ? candidate + 1 : 0;
          const ex = xs[candidateEnd]! - xs[candidate]!;
          const ey = ys[candidateEnd]! - ys[candidate]!;
          const across = dx * ey - dy * ex;
          if (across * heading <= 0 || candidate === after || candidate === before) continue;
          const gapX = xs[candidate]! - ax;
          const gapY = ys[candidate]! - ay;
          const share = (gapX * ey - gapY * ex) / across;
          if (share <= from - slack || share >= nearest) continue;
          const otherShare = (gapX * dy - gapY * dx) / across;
          const otherSlack = slackMm / Math.sqrt(ex * ex + ey * ey);
          if (otherShare < -otherSlack || otherShare > 1 + otherSlack) continue;
          nearest = share;
          other = candidate;
          nearestOtherShare = otherShare;
        }
      }
    }
    if (other < 0) return null;
    return {
      share: nearest,
      other,
      otherShare: nearestOtherShare,
      x: ax + nearest * dx,
      y: ay + nearest * dy,
    };
  }

  return { firstCrossing };
}
