/**
 * The practice photographs, each with its exact truth: rendered by a program that shares no code with this one.
 * @source test/photo/practice/README.md
 */
import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { quantile, type Score, scoreOf, type Truth } from "../../../test/photo/score/score.ts";
import { measurePhoto, type PhotoMeasurement } from "../../domain/photo/index.ts";
import { decodePicture } from "./decode.ts";

const folder = new URL("../../../test/photo/practice/", import.meta.url);
const names = readdirSync(folder).filter((name) => name.endsWith(".jpg"));

interface Measured extends PhotoMeasurement {
  name: string;
  truth: Truth & { camera: { tiltDeg: number; distanceMm: number } };
  score: Score;
}

describe("the practice photographs", () => {
  const all: Measured[] = [];

  beforeAll(async () => {
    for (const name of names) {
      const truth = JSON.parse(readFileSync(new URL(name.replace("jpg", "json"), folder), "utf8"));
      const measurement = measurePhoto(await decodePicture(new URL(name, folder).pathname));
      const score = measurement.outline ? scoreOf(measurement.outline, truth) : null;
      all.push({ ...measurement, name, truth, score: score! });
    }
  }, 240_000);

  it("are usable, every one: a careful person would accept them", () => {
    expect(all.filter(({ usable }) => !usable).map(({ name, reasons }) => [name, reasons])).toEqual([]);
  });

  it("give the diameter to 0.6 mm in half of the cases and to 1.5 mm in nine of ten, and never more than 3 mm off", () => {
    const errors = all.map(({ score }) => Math.abs(score.diameterErrorMm));
    expect(quantile(errors, 0.5)).toBeLessThanOrEqual(0.6);
    expect(quantile(errors, 0.9)).toBeLessThanOrEqual(1.5);
    expect(Math.max(...errors)).toBeLessThan(3);
  });

  it("give the outline itself, not only its size", () => {
    expect(
      quantile(
        all.map(({ score }) => score.overlap),
        0.5,
      ),
    ).toBeGreaterThan(0.93);
    expect(
      quantile(
        all.map(({ score }) => score.hausdorffMm),
        0.5,
      ),
    ).toBeLessThan(1.2);
  });

  it("tell from how far and how slanted they were taken", () => {
    for (const { tiltDeg, distanceMm, truth } of all) {
      expect(Math.abs(tiltDeg! - truth.camera.tiltDeg)).toBeLessThan(3);
      expect(Math.abs(distanceMm! / truth.camera.distanceMm - 1)).toBeLessThan(0.06);
    }
  });

  it("say that the card's scale was assumed, and that a nurse has to confirm", () => {
    for (const { card, notes } of all) {
      expect(card).toEqual({ scaleX: 1, scaleY: 1, assumed: true });
      expect(notes.map(({ code }) => code)).toEqual(expect.arrayContaining(["scaleAssumed", "confirm"]));
    }
  });
});
