/** Taller than any stoma that is not a prolapse; what stands higher is not measured by its base. */
export const heightLimitsMm = { least: 0, most: 60 } as const;

/** A printer that is further off than this has not printed the card that was meant. */
export const cardScaleLimits = { least: 0.8, most: 1.25 } as const;

export function isWithin(value: number, { least, most }: { least: number; most: number }): boolean {
  return value >= least && value <= most;
}
