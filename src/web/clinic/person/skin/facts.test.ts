import { expect, it } from "vitest";
import { day, drainable, entry, round, samplePerson, stomaOf } from "../../../../../test/record/samples.ts";
import type { BodyOf } from "../../../../record/entry/index.ts";
import { skinSignWords } from "../../../shared/words/index.ts";
import { skinFacts, skinWords } from "./facts.ts";

const { about, entries } = samplePerson();
const at = (date: string) => ({ ...about, at: day(date) });
const base = { guide: { shape: "round", diameterMm: 30 } } as const;
const seen = (toMm: number): BodyOf<"skin"> => ({
  about: base,
  findings: [
    { what: "redderOrDarker", place: { hours: { from: 1, to: 12 }, reachMm: { from: 0, to: toMm } } },
  ],
});
const told = [
  ...entries,
  entry("measured", round(30), at("2026-11-01")),
  entry("fitted", drainable, at("2026-11-01")),
  entry("cut", { opening: { guide: { shape: "round", diameterMm: 40 } }, how: "byHand" }, at("2026-11-01")),
];

it("redness no wider than the gap lies all in the skin that the opening left bare", () => {
  const { looks } = skinFacts(stomaOf([...told, entry("skin", seen(5), at("2026-11-08"))]));
  const [look] = looks;
  expect(look!.bareSkinMm2).toBeCloseTo(Math.PI * (20 ** 2 - 15 ** 2), -1);
  expect(look!.areas[0]!.bareMm2! / look!.areas[0]!.areaMm2).toBeGreaterThan(0.99);
});

it("each look is held against the opening of its own day", () => {
  const stoma = stomaOf([
    ...told,
    entry("skin", seen(5), at("2026-11-08")),
    entry("cut", { opening: { guide: { shape: "round", diameterMm: 34 } }, how: "byHand" }, at("2026-11-10")),
    entry("skin", seen(5), at("2026-11-15")),
  ]);
  const [before, after] = skinFacts(stoma).looks;
  expect(after!.bareSkinMm2!).toBeLessThan(before!.bareSkinMm2! / 2);
});

it("says where it lies and what it was before, each sign by itself", () => {
  const stoma = stomaOf([
    ...told,
    entry("skin", seen(5), at("2026-11-08")),
    entry("skin", seen(3), at("2026-11-15")),
  ]);
  const [sentence] = skinWords(skinFacts(stoma), skinSignWords);
  expect(sentence).toMatch(/^Redder or darker than the skin around: 310 mm², .* at the look before\.$/);
});

it("a look that found nothing says so, which is not the same as no look", () => {
  const found = skinFacts(stomaOf([...told, entry("skin", { findings: [] }, at("2026-11-20"))]));
  expect(skinWords(found, skinSignWords)).toEqual(["At the last look nothing was found."]);
  expect(skinWords(skinFacts(stomaOf(told)), skinSignWords)).toEqual([]);
});
