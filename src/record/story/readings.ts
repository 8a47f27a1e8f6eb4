import { measureOutline } from "../../domain/outline/index.ts";
import type { Effective } from "../effective/index.ts";
import {
  type BodyOf,
  calendarDaysBetween,
  dateOf,
  type PlainDate,
  type RecordedShape,
} from "../entry/index.ts";

/** A measurement of the stoma's base, ready for the healing curve. */
export interface Reading {
  entryId: string;
  on: PlainDate;
  /** Days since surgery; null while the surgery date is unknown. */
  day: number | null;
  /** Extent along the longest and the narrowest direction, mm. */
  longestMm: number;
  narrowestMm: number;
  method: BodyOf<"measured">["method"];
  stepMm?: number;
  sdMm?: number;
  heightMm?: number;
  shape: RecordedShape;
  source: Effective<"measured">;
}

export function readingsOf(measured: Effective<"measured">[], surgeryOn: PlainDate | undefined): Reading[] {
  return measured.map((source) => {
    const { body, id } = source.entry;
    const on = dateOf(source.entry.at);
    const [longestMm, narrowestMm] = extentOf(body.shape);
    return {
      entryId: id,
      on,
      day: surgeryOn ? calendarDaysBetween(surgeryOn, on) : null,
      longestMm,
      narrowestMm,
      method: body.method,
      stepMm: body.stepMm,
      sdMm: body.sdMm,
      heightMm: body.heightMm,
      shape: body.shape,
      source,
    };
  });
}

/** A guide says its two sizes itself; an outline's come from calipers. */
export function extentOf(shape: RecordedShape): [longestMm: number, narrowestMm: number] {
  if ("guide" in shape) {
    const { guide } = shape;
    if (guide.shape === "round") return [guide.diameterMm, guide.diameterMm];
    return [Math.max(guide.lengthMm, guide.widthMm), Math.min(guide.lengthMm, guide.widthMm)];
  }
  const { feretMaxMm, feretMinMm } = measureOutline(shape);
  return [feretMaxMm, feretMinMm];
}
