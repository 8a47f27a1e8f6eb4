import type { CuttingSheet } from "../../src/documents/index.ts";
import { dimensionsOf, type Outline, outlineOf, type Point } from "../../src/domain/outline/index.ts";
import { defaultProtocol } from "../../src/domain/protocol/index.ts";

/** A stoma and the opening for it, made without the opening's own arithmetic. */
export interface SampleShape {
  stoma: Outline;
  opening: Outline;
}

export function round(diameterMm: number, gapMm = 2): SampleShape {
  return oval(diameterMm, diameterMm, 0, gapMm);
}

/** Both ovals stand on the same axes, so the gap is `gapMm` at their ends. */
export function oval(lengthMm: number, widthMm: number, tiltDeg: number, gapMm = 2): SampleShape {
  const grown = (byMm: number) =>
    outlineOf({
      guide: { shape: "oval", lengthMm: lengthMm + 2 * byMm, widthMm: widthMm + 2 * byMm, tiltDeg },
    });
  return { stoma: grown(0), opening: grown(gapMm) };
}

/** A traced outline with a bay and no symmetry; its opening keeps 2.6 mm along every ray. */
export function traced(): SampleShape {
  const outline = (byMm: number) =>
    Array.from({ length: 240 }, (_, index): Point => {
      const turn = (index * Math.PI) / 120;
      const bay = 3.5 * Math.exp(-(((turn - 1.1) / 0.5) ** 2));
      const radius = 14.5 + 2 * Math.cos(2 * turn + 0.5) + 1.2 * Math.sin(3 * turn) - bay + byMm;
      return [radius * Math.cos(turn) + 1.5, radius * Math.sin(turn) - 0.8];
    });
  return { stoma: outline(0), opening: outline(2.6) };
}

/** A sheet for an invented person; the cut is the opening itself unless given. */
export function sheetFor({ stoma, opening }: SampleShape, changes: Partial<CuttingSheet> = {}): CuttingSheet {
  const { feretMinMm, feretMaxMm } = dimensionsOf(opening);
  return {
    clinic: {
      name: "Thornmere Stoma Clinic",
      nursePhone: "555 0142",
      outOfHoursPhone: "555 0199",
      emergencyNumber: "555 0100",
    },
    person: { name: "Edda Farrowby", birthDate: "1951-04-03", identifier: "TH-2207" },
    stomaLabel: "Loop ileostomy, right side",
    madeOn: "2026-11-25",
    dayOfRecovery: 27,
    by: "I. Varga",
    method: "a tracing",
    stoma,
    opening,
    scissorPath: opening,
    clearanceMm: 2,
    gapEachSideMm: { min: 2, max: 2 },
    holeAcrossMm: { min: feretMinMm, max: feretMaxMm },
    fitsUntil: { day: 44, on: "2026-12-12", lowerDay: 38, upperDay: 55 },
    measureAgainOn: "2026-12-02",
    sheetNumber: 4,
    replaces: { sheetNumber: 3, madeOn: "2026-11-11" },
    demo: true,
    protocol: defaultProtocol,
    paper: "A4",
    ...changes,
  };
}
