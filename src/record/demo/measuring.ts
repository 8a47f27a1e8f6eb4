import { openingFor } from "../../domain/opening/index.ts";
import type { BodyOf, RecordedShape } from "../entry/index.ts";
import type { DaysAgo, ReadingScenario, StomaScenario } from "./scenario.ts";
import { readShape, trueLengthMm } from "./size.ts";

export interface Measured {
  daysAgo: DaysAgo;
  body: BodyOf<"measured">;
  /** What was written down first, by mistake. */
  slip?: { shape: RecordedShape; reason: string };
}

export interface Cut {
  daysAgo: DaysAgo;
  body: BodyOf<"cut">;
}

/** Readings, oldest first, each with the opening that was cut from it if its size had changed. */
export function measuredAndCut(stoma: StomaScenario): { measured?: Measured; cut?: Cut }[] {
  const readings = stoma.readings ? measuredOn(stoma, stoma.readings) : [];
  const { opening, preCutMm } = stoma.systems[0].system;
  if (opening === "preCut" && preCutMm !== undefined) {
    return [{ cut: preCut(stoma.knownSince, preCutMm) }, ...readings.map((measured) => ({ measured }))];
  }
  const lastCut = readings.length - 1 - (stoma.readingsSinceCut ?? 0);
  let cutFrom = "";
  return readings.map((measured, index) => {
    const shape = JSON.stringify(measured.body.shape);
    if (stoma.clearanceMm === null || index > lastCut || shape === cutFrom) return { measured };
    cutFrom = shape;
    const how = opening === "mouldable" ? "moulded" : "sheet";
    return { measured, cut: cutTo(measured, stoma.clearanceMm, how) };
  });
}

function measuredOn(stoma: StomaScenario, readings: ReadingScenario): Measured[] {
  const { size } = stoma;
  const days: DaysAgo[] = [];
  for (let day = readings.last; day <= stoma.knownSince; day += readings.everyDays) days.unshift(day);
  return days.map((daysAgo, index) => {
    const day = (stoma.surgery?.daysAgo ?? settledDay) - daysAgo;
    const shape = readShape(size, readings, trueLengthMm(size, day, daysAgo));
    const body: Measured["body"] = {
      method: readings.method,
      shape,
      heightMm: size.heightMm,
      posture: "sitting",
      ...(readings.method === "guide"
        ? { stepMm: readings.stepMm ?? 1 }
        : { source: "Drawn on film and scanned" }),
    };
    const { slip } = readings;
    if (slip?.before !== days.length - 1 - index) return { daysAgo, body };
    return { daysAgo, body, slip: { shape: withLength(shape, slip.wrongMm), reason: slip.reason } };
  });
}

/** Where surgery is unknown the stoma healed long before the record begins. */
const settledDay = 3650;

function withLength(shape: RecordedShape, lengthMm: number): RecordedShape {
  if (!("guide" in shape)) return shape;
  const { guide } = shape;
  return { guide: guide.shape === "round" ? { ...guide, diameterMm: lengthMm } : { ...guide, lengthMm } };
}

function cutTo({ daysAgo, body }: Measured, clearanceMm: number, how: "moulded" | "sheet"): Cut {
  return { daysAgo, body: { opening: grownBy(body.shape, clearanceMm), clearanceMm, how } };
}

function preCut(daysAgo: DaysAgo, diameterMm: number): Cut {
  return { daysAgo, body: { opening: { guide: { shape: "round", diameterMm } }, how: "preCut" } };
}

/** A ring grows to a larger ring; a tracing to the line that scissors follow round it. */
function grownBy(shape: RecordedShape, clearanceMm: number): RecordedShape {
  if ("guide" in shape) {
    const { guide } = shape;
    const grow = (mm: number) => Math.round((mm + 2 * clearanceMm) * 1000) / 1000;
    if (guide.shape === "round") return { guide: { ...guide, diameterMm: grow(guide.diameterMm) } };
    return { guide: { ...guide, lengthMm: grow(guide.lengthMm), widthMm: grow(guide.widthMm) } };
  }
  const { scissorPath } = openingFor({ stoma: shape, clearanceMm });
  if (!scissorPath) throw new Error("a demo tracing leaves nothing to cut");
  return { outline: scissorPath.map(([x, y]) => [Math.round(x * 100) / 100, Math.round(y * 100) / 100]) };
}
