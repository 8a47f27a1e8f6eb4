import type { GuideReading } from "../../../../domain/outline/index.ts";
import { type Protocol, protocolDefinition } from "../../../../domain/protocol/index.ts";
import type { BodyOf } from "../../../../record/entry/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";
import type { Details, FittingState } from "./fittingState.ts";
import {
  guideReading,
  outlineOfForm,
  ovalReading,
  type PhotoRead,
  type RulerFields,
  type ShapeForm,
  type Traced,
} from "./shapeForm.ts";
import { storedOutline } from "./stored.ts";

type Measured = BodyOf<"measured">;

/** Sentences about fields that cannot be saved as they stand. */
export type Wrong = Partial<Record<"shape" | "stepMm" | "heightMm", string>>;

/** Heights that can be entered: from a stoma drawn far in to one that hangs out. */
const heightRangeMm = { least: -40, most: 150 } as const;
const stepRangeMm = { least: 0.1, most: 10 } as const;

/** The reading as it will stand in the record, or what stands in the way. */
export function measuredBody(
  state: Pick<FittingState, "shape" | "details">,
): { body: Measured; wrong?: undefined } | { body?: undefined; wrong: Wrong } {
  const { shape, details } = state;
  const wrong: Wrong = {};
  const drawn = outlineOfForm(shape);
  if (!drawn.outline) wrong.shape = drawn.why || missing[shape.way];
  const height = heightWrong(details);
  if (height) wrong.heightMm = height;
  const step = stepWrong(shape);
  if (step) wrong.stepMm = step;
  if (Object.keys(wrong).length > 0) return { wrong };
  return {
    body: {
      ...methodAndShape(shape),
      heightMm: readDecimal(details.heightMm) ?? undefined,
      posture: details.posture || undefined,
      note: details.note.trim() || undefined,
    },
  };
}

const missing: Record<ShapeForm["way"], string> = {
  guide: "Write the size of the ring that cleared.",
  tracing: "Draw the line round the base, or read it from a file.",
  typed: "Write length and width.",
  photo: "Take a photograph with the frame card, or choose one.",
};

export function heightWrong({ heightMm }: Details): string | undefined {
  if (heightMm.trim() === "") return undefined;
  const value = readDecimal(heightMm);
  if (value === null) return "Write a number, such as 18.";
  const { least, most } = heightRangeMm;
  return value < least || value > most ? `A height lies between ${least} and ${most} mm.` : undefined;
}

export function stepWrong({ way, guide, edited }: ShapeForm): string | undefined {
  if (way !== "guide" || edited) return undefined;
  const value = readDecimal(guide.stepMm);
  const { least, most } = stepRangeMm;
  return value === null || value < least || value > most
    ? `The step between rings lies between ${least} and ${most} mm.`
    : undefined;
}

/**
 * A ring that was adjusted by hand is no ring any more: its outline is kept as typed, so that the healing curve does
 * not take it for the interval that a ring stands for.
 */
function methodAndShape(
  shape: ShapeForm,
): Pick<Measured, "method" | "shape" | "stepMm" | "source" | "sdMm" | "photo"> {
  const { way, edited } = shape;
  if (way === "photo") return photoShape(shape);
  if (way === "tracing" || edited) {
    const { outline } = outlineOfForm(shape);
    const kept = storedOutline(outline!);
    return way === "tracing"
      ? { method: "tracing", shape: kept, source: tracingSource(shape) }
      : { method: "typed", shape: kept, source: adjustedSource(shape) };
  }
  const guide = way === "guide" ? guideReading(shape.guide) : ovalReading(shape.ruler);
  if ("why" in guide) throw new Error(guide.why);
  if (way === "typed") return { method: "typed", shape: { guide } };
  return { method: "guide", shape: { guide }, stepMm: readDecimal(shape.guide.stepMm)! };
}

/** Four of five errors of a normal law lie within this many standard deviations. */
const fourOfFive = 1.2816;

function photoShape(shape: ShapeForm): Pick<Measured, "method" | "shape" | "sdMm" | "photo"> {
  const { outline } = outlineOfForm(shape);
  const { uncertaintyMm, cardScale, tiltDeg, markersFound, photoId } = shape.photo!;
  return {
    method: "photo",
    shape: storedOutline(outline!),
    sdMm: Math.round((uncertaintyMm / fourOfFive) * 1000) / 1000,
    photo: {
      scale: "frameCard",
      tiltDeg: Math.round(tiltDeg * 10) / 10,
      markersFound,
      adjusted: shape.edited !== null,
      ...(cardScale ? { cardScale } : {}),
      ...(photoId ? { photoId } : {}),
    },
  };
}

function photoToCorrect({ shape, sdMm = 0, photo }: Measured): PhotoRead | null {
  if (!photo || !("outline" in shape)) return null;
  return {
    outline: shape.outline,
    uncertaintyMm: sdMm * fourOfFive,
    cardScale: photo.cardScale ?? null,
    tiltDeg: photo.tiltDeg,
    markersFound: photo.markersFound ?? 0,
    photoId: photo.photoId ?? null,
  };
}

/** The record keeps no longer a source. */
const longestSource = 200;

function tracingSource({ traced, edited, origin }: ShapeForm): string | undefined {
  if (!traced) return origin ?? undefined;
  const words = [...tracedWords(traced), edited ? "adjusted by hand" : ""].filter(Boolean).join("; ");
  return words.slice(0, longestSource);
}

function tracedWords({ source, smoothing, placing, joinedMm }: Traced): string[] {
  return [
    source,
    joinedMm >= 1 ? `ends ${joinedMm.toFixed(1)} mm apart joined` : "",
    smoothing === "none" ? "" : `smoothed ${smoothing === "little" ? "a little" : "much"}`,
    placing.mirrored ? "mirrored, traced from the skin side" : "",
    placing.turnDeg ? `turned ${placing.turnDeg}°` : "",
    placing.scale === 1 ? "" : `scaled by ${placing.scale.toFixed(4)}`,
  ];
}

function adjustedSource(shape: ShapeForm): string {
  if (shape.origin) return shape.origin;
  const { way, guide, ruler } = shape;
  const { lengthMm, widthMm } = way === "guide" ? guide : ruler;
  const isRound = way === "guide" && guide.shape === "round";
  const size = isRound ? `${guide.diameterMm} mm` : `${lengthMm} × ${widthMm} mm`;
  const from = way === "guide" ? "guide reading" : "typed size";
  return `From a ${from} of ${size}, adjusted by hand`;
}

/** A reading as it would have been typed, to be corrected. */
export function shapeToCorrect(body: Measured, empty: ShapeForm): ShapeForm {
  const { method, shape, stepMm } = body;
  const photo = photoToCorrect(body);
  if (photo) return { ...empty, way: "photo", photo };
  if ("outline" in shape) {
    return { ...empty, way: method, edited: shape.outline, origin: body.source ?? null };
  }
  const sizes = sizesAsTyped(shape.guide);
  if (method === "typed") return { ...empty, way: "typed", ruler: sizes };
  const guide = { ...empty.guide, ...sizes, shape: shape.guide.shape };
  if (shape.guide.shape === "round") guide.diameterMm = String(shape.guide.diameterMm);
  if (stepMm !== undefined) guide.stepMm = String(stepMm);
  return { ...empty, way: "guide", guide };
}

function sizesAsTyped(guide: GuideReading): RulerFields {
  if (guide.shape === "round") {
    const across = String(guide.diameterMm);
    return { lengthMm: across, widthMm: across, tiltDeg: "0" };
  }
  return {
    lengthMm: String(guide.lengthMm),
    widthMm: String(guide.widthMm),
    tiltDeg: String(guide.tiltDeg),
  };
}

/** Gaps that can be asked for: the record takes none far smaller, the protocol none wider. */
export const clearanceRangeMm = { least: -5, most: protocolDefinition("clearanceLiquidMm").max } as const;

/** The gap that applies: what was typed, else the protocol's for this kind of stoma. Null: not a usable number. */
export function clearanceOf(typed: string | null, defaultMm: number): number | null {
  if (typed === null) return defaultMm;
  const value = readDecimal(typed);
  const { least, most } = clearanceRangeMm;
  return value !== null && value >= least && value <= most ? value : null;
}

/** The protocol's gap for a kind of stoma. */
export function usualClearance(
  stomaType: string,
  protocol: Protocol,
): { key: "clearanceFormedMm" | "clearanceLiquidMm"; mm: number } {
  const key = stomaType === "colostomy" ? "clearanceFormedMm" : "clearanceLiquidMm";
  return { key, mm: protocol[key] };
}
