import { InputError } from "../../../../domain/fault.ts";
import { type GuideReading, type Outline, outlineOf } from "../../../../domain/outline/index.ts";
import { asDrawn, type Placing, placed, type Smoothing, smoothed } from "../../../../record/tracing/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";

export const ways = ["guide", "tracing", "typed", "photo"] as const;
/** How the base is measured: rings of a guide, a traced line, a ruler, or a photograph with the frame card. */
export type Way = (typeof ways)[number];

/** What a guide said, as typed. */
export interface GuideFields {
  shape: "round" | "oval";
  diameterMm: string;
  lengthMm: string;
  widthMm: string;
  tiltDeg: string;
  stepMm: string;
}

/** What a ruler said, as typed. */
export interface RulerFields {
  lengthMm: string;
  widthMm: string;
  tiltDeg: string;
}

/** A line as it was drawn or imported, in mm, with what is to be done to it. */
export interface Traced {
  line: Outline;
  smoothing: Smoothing;
  placing: Placing;
  /** Where it came from, for the record: "Drawn on the screen", "SVG file, path 2". */
  source: string;
  /** How far its ends lay apart before they were joined, mm. */
  joinedMm: number;
}

/** What a photograph with the frame card said. */
export interface PhotoRead {
  /** The base, laid with its centre on the plate's. */
  outline: Outline;
  /** Four of five true diameters lie within this of the one read. */
  uncertaintyMm: number;
  /** Measured over nominal size of the printed card; null: taken to be true. */
  cardScale: { x: number; y: number } | null;
  tiltDeg: number;
  markersFound: number;
  /** The id under which the picture is to be kept; null where it is not. */
  photoId: string | null;
}

/** Everything that makes the outline; JSON, so that it can be kept and undone. */
export interface ShapeForm {
  way: Way;
  guide: GuideFields;
  ruler: RulerFields;
  traced: Traced | null;
  photo: PhotoRead | null;
  /** The outline after handles were moved; null while it follows from the rest. */
  edited: Outline | null;
  /** Where the outline of a reading that is corrected came from, as the record says. */
  origin: string | null;
}

/** The outline of a form, or the sentence why there is none yet ("" while nothing was given). */
export type Drawn = { outline: Outline; why?: undefined } | { outline?: undefined; why: string };

/** Sizes that can be entered; beyond them a figure is a slip of the keys. */
export const sizeRangeMm = { least: 1, most: 200 } as const;

export function emptyShape(way: Way, stepMm: number): ShapeForm {
  return {
    way,
    guide: { shape: "oval", diameterMm: "", lengthMm: "", widthMm: "", tiltDeg: "0", stepMm: String(stepMm) },
    ruler: { lengthMm: "", widthMm: "", tiltDeg: "0" },
    traced: null,
    photo: null,
    edited: null,
    origin: null,
  };
}

export function newTraced(line: Outline, source: string, joinedMm: number): Traced {
  return { line, smoothing: "none", placing: asDrawn, source, joinedMm };
}

/** The outline that a form stands for. */
export function outlineOfForm(form: ShapeForm): Drawn {
  return form.edited ? { outline: form.edited } : uneditedOutline(form);
}

/** The outline before any handle was moved. */
export function uneditedOutline(form: ShapeForm): Drawn {
  if (form.way === "tracing") return form.traced ? tracedOutline(form.traced) : { why: "" };
  if (form.way === "photo") return form.photo ? { outline: form.photo.outline } : { why: "" };
  const reading = form.way === "guide" ? guideReading(form.guide) : ovalReading(form.ruler);
  return "why" in reading ? reading : checked(() => outlineOf({ guide: reading }));
}

/** The line as it was drawn, placed but not smoothed; null where smoothing changes nothing. */
export function lineBeforeSmoothing({ way, traced }: ShapeForm): Outline | null {
  if (way !== "tracing" || !traced || traced.smoothing === "none") return null;
  return placed(traced.line, traced.placing);
}

export function guideReading(fields: GuideFields): GuideReading | { why: string } {
  if (fields.shape === "oval") return ovalReading(fields);
  const diameterMm = sizeOf(fields.diameterMm);
  return diameterMm === null ? { why: whyNoSize(fields.diameterMm) } : { shape: "round", diameterMm };
}

/** Equal sizes make a circle, whatever the tilt. */
export function ovalReading({ lengthMm, widthMm, tiltDeg }: RulerFields): GuideReading | { why: string } {
  const [length, width] = [sizeOf(lengthMm), sizeOf(widthMm)];
  if (length === null) return { why: whyNoSize(lengthMm) };
  if (width === null) return { why: whyNoSize(widthMm) };
  if (length === width) return { shape: "round", diameterMm: length };
  const tilt = readDecimal(tiltDeg) ?? 0;
  if (Math.abs(tilt) > 180) return { why: "The tilt lies between −180 and 180 degrees." };
  return { shape: "oval", lengthMm: length, widthMm: width, tiltDeg: tilt };
}

/** What is wrong with a size as typed; undefined while it is blank or good. */
export function sizeWrong(text: string): string | undefined {
  return text.trim() === "" || sizeOf(text) !== null ? undefined : whyNoSize(text);
}

function sizeOf(text: string): number | null {
  const value = readDecimal(text);
  return value !== null && value >= sizeRangeMm.least && value <= sizeRangeMm.most ? value : null;
}

function whyNoSize(text: string): string {
  if (text.trim() === "") return "";
  return readDecimal(text) === null
    ? `“${text}” is not a number.`
    : `A size lies between ${sizeRangeMm.least} and ${sizeRangeMm.most} mm.`;
}

function tracedOutline({ line, smoothing, placing }: Traced): Drawn {
  return checked(() => outlineOf({ outline: placed(smoothed(line, smoothing), placing) }));
}

function checked(make: () => Outline): Drawn {
  try {
    return { outline: make() };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { why: `This is no outline: it ${error.faults[0]?.problem ?? "cannot be read"}.` };
  }
}
