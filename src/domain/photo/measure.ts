import { card } from "../frame-card/index.ts";
import { type Note, note } from "../note.ts";
import { measureOutline, type Outline } from "../outline/index.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { drawnIn, reachOfOutline } from "./body/base.ts";
import { type Body, fitBody, type ToldHeight } from "./body/fitBody.ts";
import { shadeBeside } from "./body/relief.ts";
import { type Tip, tipSeen } from "./body/tip.ts";
import { type Features, featuresOf } from "./edge/features.ts";
import { findSilhouette, type Silhouette } from "./edge/find.ts";
import { pointsOf } from "./edge/polar.ts";
import { type EdgeQuality, edgeQuality } from "./edge/quality.ts";
import { type CardScale, cornersOf, type Placed, type Pose, placeCard, poseOf } from "./mapping/place.ts";
import { type FoundMarker, findMarkers } from "./markers/find.ts";
import { type PaperLight, paperLight } from "./patch/paper.ts";
import { type Patch, rectified } from "./patch/patch.ts";
import type { Pixels } from "./picture/pixels.ts";
import { reduced } from "./picture/reduce.ts";
import type { CardUsed, PhotoMeasurement } from "./result.ts";
import { uncertaintyOf } from "./uncertainty.ts";
import { cardReasons, edgeReasons, markersReason, noStoma, uncertaintyReason } from "./verdict.ts";

/** What is known beside the picture. */
export interface PhotoOptions {
  /** Measured over nominal length of the printed card's bars; 1 is assumed where it is not given. */
  cardScale?: CardScale;
  /** Height of the stoma above the skin, as somebody saw it from the side. */
  heightMm?: number;
  protocol?: Protocol;
  /** Told as soon as a stage is done, with what it found: for progress, times and pictures of the stages. */
  onStage?: (stage: Stage) => void;
}

/** What each stage hands on. Pixels are those of the reduced picture. */
export type Stage =
  | { name: "markers"; picture: Pixels; markers: readonly FoundMarker[] }
  | { name: "card"; placed: Placed; pose: Pose }
  | { name: "patch"; patch: Patch; paper: PaperLight }
  | { name: "outline"; silhouette: Silhouette | null; quality: EdgeQuality | null }
  | { name: "base"; body: Body; tip: Tip | null; outline: Outline };

/** The longer side of the picture that is looked at; larger pictures are averaged down. */
const longestPx = 2048;
const patchPxPerMm = 4;
/** Heights are told to about this. */
const toldHeightSpreadMm = 2;

/**
 * Measures the base of the stoma in a photograph with a frame card. Takes about half a second for two megapixels;
 * in a browser it belongs in a worker.
 */
export function measurePhoto(picture: Pixels, options: PhotoOptions = {}): PhotoMeasurement {
  const { protocol = defaultProtocol, onStage = () => {} } = options;
  const nothing = emptyMeasurement(options.cardScale);
  const { pixels, factor } = reduced(picture, longestPx);
  const markers = findMarkers(pixels);
  onStage({ name: "markers", picture: pixels, markers });
  const tooFew = markersReason(markers.length, protocol);
  if (tooFew) return { ...nothing, markersFound: markers.length, reasons: [tooFew] };

  const placed = placeCard(cornersOf(markers, cardScale(nothing.card)), pixels.width, pixels.height);
  const pose = poseOf(placed.view);
  onStage({ name: "card", placed, pose });
  const patch = rectified(pixels, placed.view, patchPxPerMm);
  const paper = paperLight(pixels, placed.view);
  onStage({ name: "patch", patch, paper });
  const blurMm = blurOf(markers) / pose.pxPerMm;
  const seen: PhotoMeasurement = {
    ...nothing,
    markersFound: markers.length,
    ...pose,
    pxPerMm: pose.pxPerMm * factor,
    lie: lieOf(placed),
    reasons: cardReasons(
      {
        ...pose,
        blurMm,
        paperLight: paper.medianLight,
        bendRadiusMm: lieOf(placed).bendRadiusMm,
        cardErrorMm: placed.heldOutMm[placed.model],
      },
      protocol,
    ),
  };
  if (seen.reasons.length > 0) return seen;

  const features = featuresOf(patch, paper);
  const silhouette = findSilhouette(features);
  const quality = silhouette && edgeQuality(patch, features, silhouette, card.holeRadiusMm);
  onStage({ name: "outline", silhouette, quality });
  if (silhouette === null || quality === null) return { ...seen, reasons: [noStoma] };
  const reasons = edgeReasons(quality, protocol);
  if (reasons.length > 0) return { ...seen, reasons };

  return withBase({ seen, placed, features, silhouette, quality, options, protocol, onStage });
}

interface Seen {
  seen: PhotoMeasurement;
  placed: Placed;
  features: Features;
  silhouette: Silhouette;
  quality: EdgeQuality;
  options: PhotoOptions;
  protocol: Protocol;
  onStage: (stage: Stage) => void;
}

/** From the silhouette to the base, its size and how sure it is. */
function withBase({ seen, placed, features, silhouette, quality, options, protocol, onStage }: Seen) {
  const edge = pointsOf(silhouette);
  const tip = tipSeen(features, silhouette);
  const told: ToldHeight | null =
    options.heightMm === undefined ? null : { mm: options.heightMm, spreadMm: toldHeightSpreadMm };
  const shade = shadeBeside(features, silhouette);
  const body = fitBody(reachOfOutline(edge), placed.view, { tip, shade, told });
  const base = drawnIn(edge, body.beyondMm);
  onStage({ name: "base", body, tip, outline: base });
  const { outline, areaMm2, equivalentDiameterMm, feretMaxMm, feretMinMm } = measureOutline({
    outline: base,
  });
  const uncertaintyMm = uncertaintyOf({
    bodySpreadMm: body.diameterSpreadMm,
    drawnInMm: measureOutline({ outline: edge }).equivalentDiameterMm - equivalentDiameterMm,
    cardErrorMm: placed.heldOutMm[placed.model],
    quality,
    tip,
    tipOffMm: body.tipOffMm,
  });
  const tooUncertain = uncertaintyReason(uncertaintyMm, protocol);
  if (tooUncertain) return { ...seen, reasons: [tooUncertain] };
  const height = { mm: body.heightMm, spreadMm: body.heightSpreadMm, told: told !== null };
  const sizes = { outline, areaMm2, equivalentDiameterMm, feretMaxMm, feretMinMm, uncertaintyMm, height };
  return { ...seen, ...sizes, usable: true, notes: notesOf(seen.card, told) };
}

function emptyMeasurement(given: CardScale | undefined): PhotoMeasurement {
  const used: CardUsed = { scaleX: given?.x ?? 1, scaleY: given?.y ?? 1, assumed: given === undefined };
  return {
    usable: false,
    reasons: [],
    notes: [],
    markersFound: 0,
    tiltDeg: null,
    distanceMm: null,
    pxPerMm: null,
    outline: null,
    areaMm2: null,
    equivalentDiameterMm: null,
    feretMaxMm: null,
    feretMinMm: null,
    uncertaintyMm: null,
    height: null,
    card: used,
    lie: null,
  };
}

function cardScale({ scaleX, scaleY }: CardUsed): CardScale {
  return { x: scaleX, y: scaleY };
}

function lieOf({ view, model, heldOutMm }: Placed) {
  const bend = Math.abs(view.surface.bendPerMm);
  return { model, bendRadiusMm: bend > 0 ? 1 / bend : null, heldOutMm: heldOutMm[model] };
}

function blurOf(markers: readonly FoundMarker[]): number {
  const spreads = markers.map(({ edgeSpreadPx }) => edgeSpreadPx).sort((a, b) => a - b);
  return spreads[spreads.length >> 1]!;
}

function notesOf(used: CardUsed, told: ToldHeight | null): Note[] {
  const notes: Note[] = [];
  if (used.assumed) {
    notes.push(
      note(
        "scaleAssumed",
        "The card is taken to be printed at its real size; measure its bars and give their scale, or 30 mm may be 32.",
        { scaleX: used.scaleX, scaleY: used.scaleY },
      ),
    );
  }
  if (told === null) {
    notes.push(
      note(
        "heightEstimated",
        "The stoma's height was estimated from the picture; a height read from the side makes the size surer.",
      ),
    );
  }
  notes.push(
    note(
      "confirm",
      "A size from a photograph is for a nurse to check and accept before anything is cut by it.",
    ),
  );
  return notes;
}
