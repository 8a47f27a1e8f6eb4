import { type Note, note } from "../note.ts";
import { mixedCounts, type WeightedLaw } from "./laws.ts";
import { countQuantile } from "./renewal.ts";

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
  currentWearDays: number,
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
        : usedBy(lot.expiresInDays, { before: pieces, pieces: lot.pieces, perChange }, laws, currentWearDays);
    pieces += kept;
    wasted += lot.pieces - kept;
  }
  const notes = wasted > 0 ? [mayExpire(wasted)] : [];
  return { pieces, notes };
}

/** Pieces of a lot that are used by its expiry nine times in ten, after those that expire earlier. */
function usedBy(
  expiresInDays: number,
  { before, pieces, perChange }: { before: number; pieces: number; perChange: number },
  laws: readonly WeightedLaw[],
  currentWearDays: number,
): number {
  if (expiresInDays <= 0) return 0;
  const changes = countQuantile(mixedCounts(laws, expiresInDays, currentWearDays), 0.1);
  return Math.min(pieces, Math.max(0, Math.floor(changes * perChange + 1e-9) - before));
}

function mayExpire(pieces: number): Note {
  return note("mayExpireUnused", `${pieces} may expire before they are used, and are not counted on.`, {
    pieces,
  });
}
