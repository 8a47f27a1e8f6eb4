import { type Note, note } from "../note.ts";
import { centroidMm, clockHourAt, type Outline, onClock } from "../outline/index.ts";
import { type Protocol, protocolDefinition } from "../protocol/index.ts";
import type { ScissorPath } from "./scissors.ts";

const tooSmallSource = "GI Society; general nursing texts";

/** What to know about a clearance before cutting: warnings that never stop the nurse. */
export function clearanceReasons(clearanceMm: number, parts: number, protocol: Protocol): Note[] {
  const reasons: Note[] = [];
  if (clearanceMm > protocol.maxGapMm) reasons.push(aboveUsual(clearanceMm, protocol.maxGapMm));
  if (clearanceMm < 0) reasons.push(belowZero(clearanceMm));
  if (parts === 0) {
    const text = "The stoma is too small for a gap this far below 0: no opening is left.";
    reasons.push(note("openingVanishes", text, { clearanceMm }));
  }
  if (parts > 1) {
    const text = `At this gap the opening falls into ${parts} parts; the largest is shown.`;
    reasons.push(note("openingSplits", text, { clearanceMm, parts }));
  }
  return reasons;
}

function aboveUsual(clearanceMm: number, limitMm: number): Note {
  const { source } = protocolDefinition("maxGapMm");
  return note(
    "clearanceAboveUsual",
    `A gap of ${shown(clearanceMm)} mm each side (${shown(2 * clearanceMm)} mm more across) is over the protocol's ` +
      `${shown(limitMm)} mm: output reaches the skin left bare. ${source}.`,
    { clearanceMm, limitMm, source },
  );
}

function belowZero(clearanceMm: number): Note {
  return note(
    "clearanceNegative",
    `The opening is smaller than the stoma by ${shown(-clearanceMm)} mm each side: a rigid edge can cut the stoma, ` +
      `narrow it and make it swell. ${tooSmallSource}.`,
    { clearanceMm, limitMm: 0, source: tooSmallSource },
  );
}

/** Tells where the path is tighter than scissors follow, because the stoma lies right behind the corner. */
export function scissorReasons({ tightAt }: ScissorPath, stoma: Outline, radiusMm: number): Note[] {
  if (tightAt.length === 0) return [];
  const centre = centroidMm(stoma);
  const hours = new Set(tightAt.map((place) => onClock(Math.round(clockHourAt(place, centre)))));
  const clockHours = [...hours].sort((a, b) => a - b).join(", ");
  const text =
    `The curve at ${clockHours} o'clock is tighter than ${shown(radiusMm)} mm and cannot be rounded without ` +
    "cutting into the stoma's outline: cut it there in short snips.";
  return [note("curveTighterThanScissors", text, { clockHours, limitMm: radiusMm })];
}

/** Millimetres as a sentence shows them. */
export function shown(mm: number): string {
  return String(Number(mm.toFixed(1)));
}
