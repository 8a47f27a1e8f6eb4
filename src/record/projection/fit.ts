import { addDays, type PlainDate } from "../../domain/calendar.ts";
import { programVersion } from "../programVersion.ts";
import type { FitRow } from "../store/store.ts";
import { type ClinicStory, healingOf, type StomaStory } from "../story/index.ts";

/**
 * The day on which the opening in use is expected to stop fitting, as the lists keep it; null where nobody can say.
 * An opening that was too large or too small from the start stopped fitting on the day it was cut, not before.
 */
export function fitOf(stoma: StomaStory, { protocol, protocolVersion }: ClinicStory): FitRow {
  const opening = stoma.openings.at(-1);
  const judged = opening ? healingOf(stoma, protocol) : null;
  const on = (day: number | null | undefined): PlainDate | null => {
    if (!opening || !judged || day === null || day === undefined) return null;
    const date = addDays(judged.clockStartOn, Math.floor(day));
    if (date < opening.from) return opening.from;
    return date;
  };
  return {
    stomaId: stoma.stomaId,
    fitsUntilOn: on(judged?.fitsUntilDay?.estimate),
    fitsUntilLowerOn: on(judged?.fitsUntilDay?.lower80),
    fitsUntilUpperOn: on(judged?.fitsUntilDay?.upper80),
    programVersion,
    protocolVersion,
  };
}
