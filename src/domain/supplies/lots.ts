import { type Note, note } from "../note.ts";
import { completionDays, type WeightedLaw } from "./lasting.ts";

/** Pieces that expire on one day, whole days from now; null: not known to expire. */
export interface Lot {
  pieces: number;
  expiresInDays: number | null;
}

interface Stock {
  perChange: number;
  onHand: number;
  expires?: number;
  lots?: readonly Lot[];
}

/**
 * Pieces that will be used before they expire, first expired first, if changes are as slow as one time in ten: what
 * could go to waste is not counted on.
 */
export function usable(
  { perChange, onHand, expires, lots }: Stock,
  laws: readonly WeightedLaw[],
  days: { currentWearDays: number; horizonDays: number },
): { pieces: number; notes: Note[] } {
  const byExpiry = [...(lots ?? [{ pieces: onHand, expiresInDays: expires ?? null }])].sort(
    (a, b) => (a.expiresInDays ?? Number.POSITIVE_INFINITY) - (b.expiresInDays ?? Number.POSITIVE_INFINITY),
  );
  let pieces = 0;
  let wasted = 0;
  for (const lot of byExpiry) {
    const kept =
      lot.expiresInDays === null
        ? lot.pieces
        : usedBy(lot.expiresInDays, { before: pieces, pieces: lot.pieces, perChange }, laws, days);
    pieces += kept;
    wasted += lot.pieces - kept;
  }
  const notes = wasted > 0 ? [mayExpire(wasted)] : [];
  return { pieces, notes };
}

/** Pieces of a lot that are surely used by its expiry, after those that expire earlier. */
function usedBy(
  expiresInDays: number,
  { before, pieces, perChange }: { before: number; pieces: number; perChange: number },
  laws: readonly WeightedLaw[],
  days: { currentWearDays: number; horizonDays: number },
): number {
  if (expiresInDays <= 0) return 0;
  let kept = 0;
  for (let count = 1; count <= Math.ceil(pieces); count++) {
    const wears = Math.ceil((before + count) / perChange - 1e-9);
    const [day] = completionDays(laws, wears, [0.9], days);
    if (day === null || day === undefined || day > expiresInDays) break;
    kept = Math.min(count, pieces);
  }
  return kept;
}

function mayExpire(pieces: number): Note {
  return note("mayExpireUnused", `${pieces} may expire before they are used, and are not counted on.`, {
    pieces,
  });
}
