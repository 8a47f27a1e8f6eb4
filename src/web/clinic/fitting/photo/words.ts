import type { LiveFrame, PhotoMeasurement } from "../../../../domain/photo/index.ts";
import { counted, mm } from "../../../shared/words/index.ts";
import type { PhotoReader } from "./usePhoto.ts";

/** What is being done, while it takes. */
export const stageWords: Record<NonNullable<PhotoReader["stage"]>, string> = {
  decode: "Opening the picture",
  markers: "Looking for the card",
  card: "Working out how the card lies",
  patch: "Looking at it from straight above",
  outline: "Finding the edge of the stoma",
  base: "From the edge seen to the base at the skin",
};

/** What to do next while aiming. */
export const adviceWords: Record<LiveFrame["advice"], string> = {
  showCard: "Bring the whole card into the picture.",
  showAllMarkers: "Show all eight markers of the card.",
  tiltLess: "Hold the camera straighter above the card.",
  goNearer: "Go nearer: the card should fill the picture.",
  holdSteadier: "Hold steadier, or find more light.",
  hold: "Good. Hold still and take it.",
};

/** "30.4 mm across, within 0.8 mm four times in five" and how it was taken. */
export function sizeWords({
  equivalentDiameterMm,
  uncertaintyMm,
  markersFound,
  tiltDeg,
}: PhotoMeasurement): string {
  const size = `${mm(equivalentDiameterMm ?? 0)} across, within ${mm(uncertaintyMm ?? 0)} four times in five.`;
  const taken = `${counted(markersFound, "marker", "markers")} found, tilt ${Math.round(tiltDeg ?? 0)}°.`;
  return `${size} ${taken}`;
}
