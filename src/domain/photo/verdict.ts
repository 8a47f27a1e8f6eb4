import { type Note, note } from "../note.ts";
import type { Protocol } from "../protocol/index.ts";

/** What a photograph was found to be like, as far as it was looked at. */
export interface Findings {
  tiltDeg: number;
  pxPerMm: number;
  blurMm: number;
  paperLight: number;
  bendRadiusMm: number | null;
  cardErrorMm: number;
}

export interface EdgeFindings {
  glareShare: number;
  holeGapMm: number;
  colourStep: number;
  slackMm: number;
}

/** Reasons against measuring that the card alone gives. */
export function cardReasons(found: Findings, protocol: Protocol): Note[] {
  const reasons: (Note | null)[] = [
    over(found.tiltDeg, protocol.photoMostTiltDeg) &&
      reason(
        "tooTilted",
        found.tiltDeg,
        protocol.photoMostTiltDeg,
        (value, limit) =>
          `The card is seen at a slant of ${value.toFixed(0)}° (at most ${limit}°): hold the camera straight above it.`,
      ),
    under(found.pxPerMm, protocol.photoLeastPxPerMm) &&
      reason(
        "tooFar",
        found.pxPerMm,
        protocol.photoLeastPxPerMm,
        (value, limit) =>
          `A millimetre of skin has ${value.toFixed(1)} picture points (at least ${limit}): go nearer, so that the card fills the picture.`,
      ),
    over(found.blurMm, protocol.photoMostBlurMm) &&
      reason(
        "blurred",
        found.blurMm,
        protocol.photoMostBlurMm,
        (value, limit) =>
          `The picture is blurred over ${value.toFixed(1)} mm (at most ${limit}): rest your elbows, tap on the stoma to focus, and take it again.`,
      ),
    under(found.paperLight, protocol.photoLeastPaperLight) &&
      reason(
        "tooDark",
        found.paperLight,
        protocol.photoLeastPaperLight,
        (value) =>
          `The picture is too dark (the white paper has ${(100 * value).toFixed(0)} % of the full light): turn on a lamp or go to a window.`,
      ),
    found.bendRadiusMm !== null &&
      under(found.bendRadiusMm, protocol.photoLeastBendRadiusMm) &&
      reason(
        "cardBent",
        found.bendRadiusMm,
        protocol.photoLeastBendRadiusMm,
        (value, limit) =>
          `The card is bent to a radius of ${value.toFixed(0)} mm (at least ${limit}): let the person lie or lean back, and lay it flat.`,
      ),
    over(found.cardErrorMm, protocol.photoMostCardErrorMm) &&
      reason(
        "cardCreased",
        found.cardErrorMm,
        protocol.photoMostCardErrorMm,
        (value, limit) =>
          `The markers lie ${value.toFixed(1)} mm from where they should (at most ${limit}): smooth the card or take a new one.`,
      ),
  ].map((one) => one || null);
  return reasons.filter((one) => one !== null);
}

/** Too few markers to measure by; null where there are enough. */
export function markersReason(markersFound: number, protocol: Protocol): Note | null {
  const least = protocol.photoLeastMarkers;
  return under(markersFound, least)
    ? reason("markersHidden", markersFound, least, (value) =>
        value === 0
          ? "No marker of a frame card was found: lay the card round the stoma and have all eight markers in the picture."
          : `Only ${value} of the card's 8 markers can be read (at least ${least}): have all of them in the picture, free of fingers, folds and shine.`,
      )
    : null;
}

/** Reasons against the outline that was found. */
export function edgeReasons(found: EdgeFindings, protocol: Protocol): Note[] {
  const reasons: (Note | null)[] = [
    under(found.holeGapMm, protocol.photoLeastHoleGapMm) &&
      reason(
        "touchesHole",
        found.holeGapMm,
        protocol.photoLeastHoleGapMm,
        () =>
          "The outline runs into the edge of the card's hole: move the card so that skin shows all round the stoma.",
      ),
    under(found.colourStep, protocol.photoLeastColourStep) &&
      reason(
        "noContrast",
        found.colourStep,
        protocol.photoLeastColourStep,
        () => "Stoma and skin can hardly be told apart: use even daylight without flash, and take it again.",
      ),
    over(found.glareShare, protocol.photoMostGlareShare) &&
      reason(
        "glare",
        found.glareShare,
        protocol.photoMostGlareShare,
        (value) =>
          `Shine hides ${(100 * value).toFixed(0)} % of the outline: turn off the flash or move the lamp, dab the stoma dry.`,
      ),
    over(found.slackMm, protocol.photoMostSlackMm) &&
      reason(
        "unclearOutline",
        found.slackMm,
        protocol.photoMostSlackMm,
        (value) =>
          `More than one outline is plausible (${value.toFixed(1)} mm apart on each side): wipe blood and output off, and light it evenly.`,
      ),
  ].map((one) => one || null);
  return reasons.filter((one) => one !== null);
}

export function uncertaintyReason(uncertaintyMm: number, protocol: Protocol): Note | null {
  const limit = protocol.photoMostUncertaintyMm;
  return over(uncertaintyMm, limit)
    ? reason(
        "tooUncertain",
        uncertaintyMm,
        limit,
        (value) =>
          `The size would be uncertain by ${value.toFixed(1)} mm (at most ${limit}): photograph from straight above, and give the stoma's height.`,
      )
    : null;
}

export const noStoma: Note = note(
  "noStoma",
  "No stoma was found in the card's hole: lay the card so that the stoma stands free in it, and take it again.",
);

function over(value: number, limit: number): boolean {
  return value > limit;
}

function under(value: number, limit: number): boolean {
  return value < limit;
}

function reason(
  code: string,
  value: number,
  limit: number,
  text: (value: number, limit: number) => string,
): Note {
  return note(code, text(value, limit), { value, limit });
}
