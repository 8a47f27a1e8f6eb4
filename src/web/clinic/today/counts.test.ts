import { expect, it } from "vitest";
import { countsSentence } from "./counts.ts";

const line = (level: "now" | "sameDay" | "nextContact", personId: string) => ({ level, personId });

it("says how many to ring, to speak to and to fit in", () => {
  expect(
    countsSentence([line("now", "a"), line("sameDay", "b"), line("sameDay", "c"), line("nextContact", "d")]),
  ).toBe("One person to ring now, two more before you go home, one more this week.");
});

it("counts a person with two stomas once, by the more urgent", () => {
  expect(countsSentence([line("sameDay", "a"), line("nextContact", "a")])).toBe(
    "One person to speak to before you go home.",
  );
});

it("says so when nobody is on the list", () => {
  expect(countsSentence([])).toBe("Nobody needs you today: nothing passes a protocol value.");
});
