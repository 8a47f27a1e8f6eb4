import { type At, type BodyOf, sortMs } from "../entry/index.ts";
import type { LogContext } from "./report.ts";

/**
 * What makes two rows the same change of one stoma: when (to the minute), what, why and which system. A second
 * import of the same log adds nothing, whatever its notes say.
 */
export function identityOf(at: At, body: BodyOf<"changed">): string {
  const when = "date" in at ? at.date : Math.floor(sortMs(at) / 60_000);
  return JSON.stringify([when, body.what, body.why, body.systemName ?? null]);
}

/** Changes that the record has or had: one that was taken back does not come in again. */
export function knownIdentities({ stoma, history }: LogContext): Set<string> {
  const known = new Set<string>();
  for (const { first, corrections } of history) {
    for (const version of [first, ...corrections]) {
      if (version.kind !== "changed" || version.stomaId !== stoma.stomaId) continue;
      known.add(identityOf(version.at, version.body));
    }
  }
  return known;
}
