import { z } from "zod";
import { protocolDefinition } from "../../domain/protocol/index.ts";
import { printScaleLimits } from "../drawing/paper.ts";

const scale = z.number().min(printScaleLimits.least).max(printScaleLimits.most);

/** What is asked of a cutting sheet, apart from whose it is. */
export const sheetOrder = z.strictObject({
  /** Id of the `advised` entry, made by who asks: asking again gives the same sheet. */
  adviceId: z.uuidv7(),
  /** The measurement to cut for, as it now stands. */
  measuredId: z.uuid(),
  /** Gap each side; the protocol's own limits hold. */
  clearanceMm: z.number().min(0).max(protocolDefinition("clearanceLiquidMm").max),
  /** The clinic's paper unless given. */
  paper: z.enum(["A4", "Letter"]).optional(),
  /** What this printer made of the 100 mm bars, measured over nominal. */
  printScale: z.strictObject({ x: scale, y: scale }).optional(),
});
export type SheetOrder = z.infer<typeof sheetOrder>;

export interface SheetRequest extends SheetOrder {
  personId: string;
  stomaId: string;
}
