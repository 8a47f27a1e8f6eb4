/** How failures are slowed down. */
export interface Slowing {
  /** Failures that cost nothing. */
  free: number;
  firstMs: number;
  capMs: number;
}

const capMs = 15 * 60 * 1000;

/**
 * No source for the numbers but that they must make guessing hopeless and a morning's mistyping harmless: see
 * docs/decisions/throttling.md.
 */
export const slowings = {
  /** An account, from a browser that it was signed in with before. */
  known: { free: 5, firstMs: 1000, capMs },
  /** An account, from all browsers that are strangers to it together. */
  stranger: { free: 3, firstMs: 2000, capMs },
  /** An address: a whole clinic may share one. */
  address: { free: 20, firstMs: 1000, capMs },
} as const satisfies Record<string, Slowing>;

/** How long after its last failure the next attempt has to wait: nothing, then twice as long each time, to a cap. */
export function delayMs(failures: number, { free, firstMs, capMs: cap }: Slowing): number {
  if (failures <= free) return 0;
  // Past the cap the power would grow without end.
  return Math.min(cap, firstMs * 2 ** Math.min(failures - free - 1, 40));
}
