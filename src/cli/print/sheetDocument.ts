import { z } from "zod";
import type { CuttingSheet, Paper, PrintScale } from "../../documents/index.ts";
import { exposedSkin } from "../../domain/exposed/index.ts";
import { parseInput, refuse } from "../../domain/fault.ts";
import { openingFor } from "../../domain/opening/index.ts";
import { outlineOf } from "../../domain/outline/index.ts";
import { shapeSchema } from "../../domain/outline/input.ts";
import { protocolWith } from "../../domain/protocol/index.ts";
import { protocolChanges } from "../../domain/protocol/topic.ts";

const text = z.string().trim().min(1).max(200);
const day = z.iso.date();

/** One document that says everything a cutting sheet needs; the opening and its figures are computed from it. */
const sheetDocument = z.strictObject({
  clinic: z.strictObject({
    name: text,
    nursePhone: text,
    outOfHoursPhone: text.optional(),
    emergencyNumber: text.optional(),
  }),
  person: z.strictObject({ name: text, birthDate: day.optional(), identifier: text.optional() }),
  stomaLabel: text,
  method: text,
  by: text,
  madeOn: day,
  dayOfRecovery: z.number().int().min(0).optional(),
  stoma: shapeSchema,
  clearanceMm: z.number(),
  sheetNumber: z.number().int().min(1),
  replaces: z.strictObject({ sheetNumber: z.number().int().min(1), madeOn: day }).optional(),
  measureAgainOn: day.optional(),
  demo: z.boolean(),
  protocol: protocolChanges.optional(),
});

export const sheetExample: z.input<typeof sheetDocument> = {
  clinic: { name: "Thornmere Stoma Clinic", nursePhone: "555-0100", outOfHoursPhone: "555-0101" },
  person: { name: "Cosima Brackenhall", birthDate: "1971-03-09", identifier: "TH-0470" },
  stomaLabel: "Loop ileostomy, right side",
  method: "a guide reading",
  by: "Ines Varga",
  madeOn: "2026-11-25",
  dayOfRecovery: 16,
  stoma: { guide: { shape: "oval", lengthMm: 34, widthMm: 28, tiltDeg: 20 } },
  clearanceMm: 2,
  sheetNumber: 1,
  measureAgainOn: "2026-12-02",
  demo: true,
};

/**
 * The sheet that a document asks for.
 * @throws {InputError} with every fault of the document, or where nothing could be cut
 */
export function sheetOfDocument(
  document: unknown,
  { paper = "A4", printScale }: { paper?: Paper; printScale?: PrintScale },
): CuttingSheet {
  const { stoma, clearanceMm, protocol: changes, ...said } = parseInput(sheetDocument, document);
  const protocol = protocolWith(changes);
  const { scissorPath, opening, holeAcrossMm } = openingFor({ stoma, clearanceMm }, protocol);
  if (!scissorPath || !opening || !holeAcrossMm) {
    return refuse("clearanceMm", "leaves nothing to cut", clearanceMm, "a gap of 0 mm or more");
  }
  const outline = outlineOf(stoma, "stoma");
  const gap = exposedSkin({ stoma: { outline }, opening: { outline: scissorPath } });
  return {
    ...said,
    stoma: outline,
    opening,
    scissorPath,
    clearanceMm,
    gapEachSideMm: { min: gap.minGapMm, max: gap.maxGapMm },
    holeAcrossMm,
    protocol,
    paper,
    printScale,
  };
}
