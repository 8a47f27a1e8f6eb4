import { expect, it } from "vitest";
import { shownValue } from "../protocol/shownValue.ts";
import { protocolWords } from "./protocolWords.ts";

it("a protocol value stands with its unit and what it is", () => {
  expect(protocolWords([{ key: "maxGapMm", value: 3.2 }])).toBe(
    "Protocol: 3.2 mm (skin bare on any side beyond this: the opening no longer fits)",
  );
});

it("a share is given as a percentage too", () => {
  expect(shownValue(0.1, "share")).toBe("0.1 (10 %)");
  expect(shownValue(1, "days")).toBe("1 day");
  expect(shownValue(0.5, "%")).toBe("0.5 %");
});
