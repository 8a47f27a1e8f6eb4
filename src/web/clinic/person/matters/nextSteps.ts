import { addDays, calendarDaysBetween, type PlainDate } from "../../../../domain/calendar.ts";
import { cutAheadUntilDay } from "../../../../domain/healing/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import { clockStartOn, type StomaStory } from "../../../../record/story/index.ts";
import { longDay, mm, mmRange } from "../../../shared/words/index.ts";
import type { Outlook } from "../outlook.ts";

/** What to do, verb first: the opening, what the reasons ask, and when to measure again. */
export function nextSteps(
  stoma: StomaStory,
  outlook: Outlook,
  protocol: Protocol,
  today: PlainDate,
): string[] {
  if (stoma.standing !== "active") return [];
  const acts = outlook.reasons
    .filter(({ code }) => code !== "measureDue")
    .map(({ act, code }) => ({ act, code }));
  const opening = acts.find(({ code }) => code.startsWith("opening"));
  const size = proposedOpening(stoma, protocol);
  return [
    ...(stoma.overtakenSheet
      ? [
          `Print a new cutting sheet and ring: sheet ${stoma.overtakenSheet.sheetNumber} is to be thrown away.`,
        ]
      : []),
    ...(opening
      ? [opening.code === "openingOutgrown" || !size ? opening.act : `Cut the new opening: ${size}.`]
      : []),
    ...new Set(acts.filter((act) => act !== opening).map(({ act }) => act)),
    measureStep(stoma, outlook.measureBy, today),
    ...aheadStep(stoma, outlook),
  ];
}

/** "32.0 to 35.0 mm across, 2.0 mm each side": the last reading with the protocol's gap for its output. */
function proposedOpening({ readings, details }: StomaStory, protocol: Protocol): string | null {
  const reading = readings.at(-1);
  if (!reading) return null;
  const clearance = details.type === "colostomy" ? protocol.clearanceFormedMm : protocol.clearanceLiquidMm;
  const across = mmRange(reading.narrowestMm + 2 * clearance, reading.longestMm + 2 * clearance);
  return `${across} across, ${mm(clearance)} each side`;
}

function measureStep(stoma: StomaStory, by: PlainDate, today: PlainDate): string {
  if (stoma.readings.length === 0) return "Measure for the first time.";
  if (by <= today) return `Measure again: it was due by ${dated(stoma, by)}.`;
  return `Measure again by ${dated(stoma, by)}.`;
}

/** How far ahead barriers may be cut with the opening in use. */
function aheadStep(stoma: StomaStory, { healing, reasons }: Outlook): string[] {
  if (!healing || stoma.openings.length === 0) return [];
  const untilDay = reasons.some(({ code }) => code.startsWith("opening")) ? null : cutAheadUntilDay(healing);
  if (untilDay === null) return ["Cut no barrier ahead."];
  return [`Cut barriers ahead for no later than ${dated(stoma, addDays(healing.clockStartOn, untilDay))}.`];
}

function dated(stoma: StomaStory, on: PlainDate): string {
  const known = stoma.details.surgeryOn?.precision === "day";
  return known ? `day ${calendarDaysBetween(clockStartOn(stoma), on)}, ${longDay(on)}` : longDay(on);
}
