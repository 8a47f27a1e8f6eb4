import { protocolDefinition } from "../../domain/protocol/index.ts";
import type { StomaRow, WearRow } from "../projection/rows.ts";

const dayMs = 86_400_000;

/** No protocol looks further back than this; a day more, since its days begin where the clinic is. */
const longestWindowMs =
  (1 +
    Math.max(protocolDefinition("unplannedWindowDays").max, protocolDefinition("shortWearWindowDays").max)) *
  dayMs;

/**
 * The place of each late unplanned end among those of its stoma, the last one first, while the stoma is active. That
 * the nth of them falls into a window says that there were n in it: an index finds who had n lately, for any n and
 * window of a protocol.
 * @returns places by the wear's id; none for wears that ended longer before the stoma's last one than any window is
 */
export function unplannedPlaces(
  stomas: readonly Pick<StomaRow, "stomaId" | "standing">[],
  wears: readonly WearRow[],
): Map<string, number> {
  const places = new Map<string, number>();
  for (const { stomaId, standing } of stomas) {
    if (standing !== "active") continue;
    const own = wears.filter((wear) => wear.stomaId === stomaId);
    const lastMs = own.reduce((last, { endedMs }) => Math.max(last, endedMs), 0);
    const late = own.filter(({ why, endedMs }) => why !== "planned" && endedMs >= lastMs - longestWindowMs);
    late.sort((a, b) => b.endedMs - a.endedMs);
    for (const [index, { wearId }] of late.entries()) places.set(wearId, index + 1);
  }
  return places;
}
