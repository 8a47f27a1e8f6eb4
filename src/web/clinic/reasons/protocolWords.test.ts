import { expect, it } from "vitest";
import { shownValue } from "../protocol/shownValue.ts";
import { protocolWords } from "./protocolWords.ts";

it("a protocol value is quoted as a nurse would say it", () => {
  expect(protocolWords([{ key: "maxGapMm", value: 3.2 }])).toBe("Protocol: 3.2 mm each side");
  expect(
    protocolWords([
      { key: "unplannedCount", value: 2 },
      { key: "unplannedWindowDays", value: 7 },
    ]),
  ).toBe("Protocol: 2 changes in 7 days");
});

it("a value without a phrase of its own stands with its unit and label", () => {
  expect(protocolWords([{ key: "scissorRadiusMm", value: 3 }])).toBe(
    "Protocol: 3 mm (smallest curve that scissors follow)",
  );
});

it("a share is given as a percentage too", () => {
  expect(shownValue(0.1, "share")).toBe("0.1 (10 %)");
  expect(shownValue(1, "days")).toBe("1 day");
  expect(shownValue(0.5, "%")).toBe("0.5 %");
});
