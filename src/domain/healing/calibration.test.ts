import { describe, expect, it } from "vitest";
import { coverage, flagged } from "../../../test/calibration/healingCoverage.ts";

/** A small, seeded part of test/calibration/healing.ts: 400 people, so that a share has a standard error of 0.02. */
const PEOPLE = 100;

describe("where people are as the prior says", () => {
  const cells = (["guide", "tracing"] as const).flatMap((method, i) =>
    [4, 7].map((readings) => coverage("asThePrior", readings, method, PEOPLE, 10 * i + readings)),
  );
  const meanOf = (column: "size7" | "size14" | "fitsUntil") =>
    cells.reduce((sum, cell) => sum + cell[column], 0) / cells.length;
  const missesOf = (column: "soonerThanLower" | "laterThanUpper") =>
    cells.reduce((sum, cell) => sum + cell[column].missed, 0) /
    cells.reduce((sum, cell) => sum + cell[column].of, 0);

  it.each(["size7", "size14"] as const)("four in five true sizes lie inside the 80 %% band: %s", (column) => {
    expect(meanOf(column)).toBeGreaterThan(0.75);
    expect(meanOf(column)).toBeLessThan(0.85);
  });

  it("one opening in ten fails sooner than the lower limit, one in ten later than the upper", () => {
    for (const column of ["soonerThanLower", "laterThanUpper"] as const) {
      expect(missesOf(column)).toBeGreaterThan(0.04);
      expect(missesOf(column)).toBeLessThan(0.16);
    }
    expect(meanOf("fitsUntil")).toBeGreaterThan(0.75);
  });
});

it("where people shrink otherwise, and not as the prior says, the band still holds about so many", () => {
  const { size7, size14 } = coverage("middling", 4, "guide", PEOPLE, 5);
  for (const share of [size7, size14]) {
    expect(share).toBeGreaterThan(0.72);
    expect(share).toBeLessThan(0.92);
  }
});

it("a stoma that does not rise is flagged at most about once in a hundred measurings", () => {
  expect(flagged(6, "tracing", 0, 1000, 3)).toBeLessThan(0.025);
  expect(flagged(6, "guide", 0, 300, 3)).toBeLessThan(0.025);
});

it("a stoma that has risen by 6 mm is flagged on its first tracing nearly always", () => {
  expect(flagged(6, "tracing", 6, 300, 3)).toBeGreaterThan(0.95);
});
