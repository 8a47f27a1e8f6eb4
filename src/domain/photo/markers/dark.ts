/** Part of the picture that is darker than what lies around it, all in one piece. */
export interface DarkPatch {
  left: number;
  top: number;
  right: number;
  bottom: number;
  /** Outermost pixels of each row and column, in pixels. */
  rim: readonly (readonly [number, number])[];
}

interface Options {
  width: number;
  height: number;
  /** Side of the square around each pixel that it is compared with. */
  windowPx: number;
  /** Patches with a shorter or longer side than these are passed over. */
  smallestPx: number;
  largestPx: number;
}

/** Share of the mean around it below which a pixel counts as dark: holds in shadow and in light. */
const darkShare = 0.82;

/** Patches of dark pixels that may be markers. */
export function darkPatches(grey: Uint8Array, options: Options): DarkPatch[] {
  return patchesOf(darkMask(grey, options), options);
}

/** 1 where the pixel is darker than the mean of the window around it. */
function darkMask(grey: Uint8Array, { width, height, windowPx }: Options): Uint8Array {
  const sums = summedArea(grey, width, height);
  const half = windowPx >> 1;
  const mask = new Uint8Array(width * height);
  const stride = width + 1;
  for (let y = 0; y < height; y++) {
    const [top, bottom] = [Math.max(0, y - half), Math.min(height, y + half + 1)];
    for (let x = 0; x < width; x++) {
      const [left, right] = [Math.max(0, x - half), Math.min(width, x + half + 1)];
      const sum =
        sums[bottom * stride + right]! -
        sums[top * stride + right]! -
        sums[bottom * stride + left]! +
        sums[top * stride + left]!;
      const at = y * width + x;
      if (grey[at]! * (bottom - top) * (right - left) < darkShare * sum) mask[at] = 1;
    }
  }
  return mask;
}

function summedArea(grey: Uint8Array, width: number, height: number): Uint32Array {
  const stride = width + 1;
  const sums = new Uint32Array(stride * (height + 1));
  for (let y = 0; y < height; y++) {
    let row = 0;
    for (let x = 0; x < width; x++) {
      row += grey[y * width + x]!;
      sums[(y + 1) * stride + x + 1] = sums[y * stride + x + 1]! + row;
    }
  }
  return sums;
}

/** Collects the pieces of the mask, and forgets it on the way. */
function patchesOf(mask: Uint8Array, { width, height, smallestPx, largestPx }: Options): DarkPatch[] {
  const patches: DarkPatch[] = [];
  const stack = new Int32Array(width * height);
  for (let start = 0; start < mask.length; start++) {
    if (mask[start] !== 1) continue;
    const first = { left: width, top: height, right: 0, bottom: 0 };
    const count = flood(mask, start, width, stack, first);
    const [across, down] = [first.right - first.left + 1, first.bottom - first.top + 1];
    const large = Math.max(across, down) > largestPx;
    const cut =
      first.left === 0 || first.top === 0 || first.right === width - 1 || first.bottom === height - 1;
    if (Math.min(across, down) < smallestPx || large || cut || count < 0.2 * across * down) continue;
    patches.push({ ...first, rim: rimOf(stack, count, width, first) });
  }
  return patches;
}

/** Marks a piece as seen; its pixels stand in `stack`. @returns how many there are */
function flood(
  mask: Uint8Array,
  start: number,
  width: number,
  stack: Int32Array,
  box: { left: number; top: number; right: number; bottom: number },
): number {
  let count = 1;
  stack[0] = start;
  mask[start] = 2;
  const visit = (at: number) => {
    if (mask[at] !== 1) return;
    mask[at] = 2;
    stack[count++] = at;
  };
  for (let next = 0; next < count; next++) {
    const at = stack[next]!;
    const y = (at / width) | 0;
    const x = at - y * width;
    if (x < box.left) box.left = x;
    if (x > box.right) box.right = x;
    if (y < box.top) box.top = y;
    if (y > box.bottom) box.bottom = y;
    if (x > 0) visit(at - 1);
    if (x < width - 1) visit(at + 1);
    if (at >= width) visit(at - width);
    if (at + width < mask.length) visit(at + width);
  }
  return count;
}

function rimOf(
  pixels: Int32Array,
  count: number,
  width: number,
  { left, top, right, bottom }: { left: number; top: number; right: number; bottom: number },
): [number, number][] {
  const rows = Array.from({ length: bottom - top + 1 }, () => [Infinity, -Infinity]);
  const columns = Array.from({ length: right - left + 1 }, () => [Infinity, -Infinity]);
  for (let i = 0; i < count; i++) {
    const at = pixels[i]!;
    const y = (at / width) | 0;
    const x = at - y * width;
    widen(rows[y - top]!, x);
    widen(columns[x - left]!, y);
  }
  return [
    ...rows.flatMap(([from, to], at): [number, number][] => [
      [from!, at + top],
      [to!, at + top],
    ]),
    ...columns.flatMap(([from, to], at): [number, number][] => [
      [at + left, from!],
      [at + left, to!],
    ]),
  ];
}

function widen(range: number[], value: number): void {
  if (value < range[0]!) range[0] = value;
  if (value > range[1]!) range[1] = value;
}
