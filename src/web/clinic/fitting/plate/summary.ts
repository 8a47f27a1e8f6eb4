import type { OpeningFigures } from "../figures/fit.ts";
import { oneDecimal, rangeMm, widestHour } from "../figures/words.ts";

/** What the plate shows, for who cannot see it. */
export function plateSummary({
  size,
  recorded,
  inUse,
  proposed,
  limitMm,
}: {
  /** Length head to foot and width side to side, mm. */
  size: { lengthMm: number; widthMm: number } | null;
  recorded: boolean;
  inUse: OpeningFigures | null;
  proposed: OpeningFigures | null;
  limitMm: number;
}): string {
  if (!size) return "No size yet: the plate shows the grid and the clock alone.";
  const sentences = [
    `${recorded ? "The recorded outline" : "The outline"} is ${oneDecimal(size.lengthMm)} mm long, head to foot, and ${oneDecimal(size.widthMm)} mm wide.`,
    inUse ? `The opening in use leaves ${bareWords(inUse, limitMm)}` : "",
    proposed ? `The proposed opening leaves ${bareWords(proposed, limitMm)}` : "",
  ];
  return sentences.filter(Boolean).join(" ");
}

function bareWords({ gapEachSideMm, exposed }: OpeningFigures, limitMm: number): string {
  const widest = widestHour(exposed);
  const past = exposed.byClockHour.filter(({ maxGapMm }) => maxGapMm !== null && maxGapMm > limitMm);
  const where = widest === null ? "" : `, widest at ${widest} o’clock`;
  const over =
    past.length === 0
      ? ""
      : `; over the protocol’s ${oneDecimal(limitMm)} mm at ${past.map(({ hour }) => hour).join(", ")} o’clock`;
  return `a gap of ${rangeMm(gapEachSideMm)} each side${where}${over}.`;
}
