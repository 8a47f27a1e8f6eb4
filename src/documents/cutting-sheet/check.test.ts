import { describe, expect, it } from "vitest";
import { oval, round, sheetFor } from "../../../test/printed/sheet.ts";
import { InputError } from "../../domain/fault.ts";
import { checkedSheet } from "./check.ts";
import type { CuttingSheet } from "./input.ts";

const good = sheetFor(round(26));
const faultsOf = (changes: Partial<CuttingSheet>) => {
  try {
    checkedSheet({ ...good, ...changes });
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(({ path }) => path);
    throw error;
  }
  return [];
};

describe("a cutting sheet is refused", () => {
  it("not when everything is there", () => {
    expect(faultsOf({})).toEqual([]);
  });

  it("without a second identifier", () => {
    expect(faultsOf({ person: { name: "Edda Farrowby" } })).toEqual(["person"]);
    expect(faultsOf({ person: { name: "Edda Farrowby", birthDate: "1951-04-03" } })).toEqual([]);
    expect(faultsOf({ person: { name: "Edda Farrowby", identifier: "TH-2207" } })).toEqual([]);
    expect(faultsOf({ person: { name: " ", identifier: "TH-2207", birthDate: "1951-04-03" } })).toEqual([
      "person.name",
    ]);
  });

  it("when the name's script cannot be printed and only one other identifier stands for it", () => {
    expect(faultsOf({ person: { name: "فاطمة", identifier: "TH-2207" } })).toEqual(["person"]);
    expect(faultsOf({ person: { name: "فاطمة", identifier: "TH-2207", birthDate: "1951-04-03" } })).toEqual(
      [],
    );
    expect(faultsOf({ person: { name: "فاطمة", identifier: "٢٢٠٧", birthDate: "1951-04-03" } })).toEqual([
      "person",
    ]);
  });

  it("when the cut would go into the stoma", () => {
    const small = round(20).opening;
    expect(faultsOf({ scissorPath: small })).toEqual(["scissorPath"]);
    expect(() => checkedSheet({ ...good, scissorPath: small })).toThrow(
      /cuts into the stoma, by mm \(got 1\.0/,
    );
  });

  it("not when the cut runs along the stoma itself", () => {
    const { stoma } = good;
    const onIt = sheetFor({ stoma, opening: stoma });
    expect(() => checkedSheet(onIt)).not.toThrow();
  });

  it("when it says another size than it shows", () => {
    expect(faultsOf({ holeAcrossMm: { min: 26, max: 26 } })).toEqual(["holeAcrossMm"]);
  });

  it("when an outline crosses itself or is none", () => {
    const bow = [
      [-20, -20],
      [20, 20],
      [20, -20],
      [-20, 20],
    ] as const;
    expect(faultsOf({ scissorPath: bow })).toEqual(["scissorPath"]);
    expect(faultsOf({ stoma: [[0, 0]] })).toEqual(["stoma"]);
    expect(faultsOf({ opening: [...bow.slice(0, 2), [Number.NaN, 1]] })).toEqual(["opening"]);
  });

  it("for dates that are none, numbers that are none and phones that cannot be printed, all at once", () => {
    expect(
      faultsOf({
        madeOn: "25.11.2026",
        measureAgainOn: "2026-02-30",
        clearanceMm: Number.NaN,
        clinic: { ...good.clinic, nursePhone: "", emergencyNumber: "١١٢" },
      }).sort(),
    ).toEqual(["clearanceMm", "clinic.emergencyNumber", "clinic.nursePhone", "madeOn", "measureAgainOn"]);
  });

  it("for a print scale that no printer has", () => {
    expect(faultsOf({ printScale: { x: 1.94, y: 1 } })).toEqual(["printScale.x"]);
  });

  it("and takes outlines drawn either way round", () => {
    const reversed = { ...good, scissorPath: [...good.scissorPath].reverse() };
    expect(dimensions(checkedSheet(reversed))).toEqual(dimensions(checkedSheet(good)));
    expect(faultsOf(sheetFor(oval(30, 20, 15)))).toEqual([]);
  });
});

function dimensions({ scissorPath }: CuttingSheet): number {
  // twice the signed area: positive for a counterclockwise outline
  const next = (index: number) => scissorPath[(index + 1) % scissorPath.length]!;
  return Math.round(
    scissorPath.reduce((sum, [x, y], index) => sum + x * next(index)[1] - next(index)[0] * y, 0),
  );
}
