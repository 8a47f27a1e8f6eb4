import { expect, it } from "vitest";
import { splitFigures } from "./sentence.tsx";

const bold = (text: string) =>
  splitFigures(text)
    .filter(({ figure }) => figure)
    .map(({ part }) => part);

it("a figure is bold together with its unit", () => {
  expect(bold("The opening in use leaves up to 5.3 mm of skin bare, widest at 4 o’clock.")).toEqual([
    "5.3 mm",
    "4 o’clock",
  ]);
});

it("a list of wears is bold as one", () => {
  expect(bold("2 wears in 14 days were short: 1.6, 1.9 days.")).toEqual([
    "2 wears",
    "14 days",
    "1.6, 1.9 days",
  ]);
});

it("a day of recovery is bold together with its date", () => {
  expect(bold("The opening in use fits until day 44, 12 December.")).toEqual(["day 44, 12 December"]);
  expect(bold("It fits beyond 21 May 2027, as far as the curve is followed.")).toEqual(["21 May 2027"]);
});

it("two sizes are bold as one", () => {
  expect(bold("Last measured 31.0 by 28.0 mm across, 18 mm high.")).toEqual(["31.0 by 28.0 mm", "18 mm"]);
});

it("a sentence is kept whole", () => {
  const text = "3 unplanned changes in 7 days, after 1,200 readings.";
  expect(
    splitFigures(text)
      .map(({ part }) => part)
      .join(""),
  ).toBe(text);
});

it("a sentence without figures has nothing bold", () => {
  expect(bold("Measuring is due today: not measured yet.")).toEqual([]);
});
