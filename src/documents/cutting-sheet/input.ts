import type { Outline } from "../../domain/outline/index.ts";
import type { Protocol } from "../../domain/protocol/index.ts";
import type { Paper, PrintScale } from "../drawing/paper.ts";
import type { IsoDate } from "../words.ts";

/** What a cutting sheet says and shows; all of it computed by the caller. */
export interface CuttingSheet {
  clinic: {
    name: string;
    nursePhone: string;
    outOfHoursPhone?: string;
    emergencyNumber?: string;
  };
  /** Two identifiers are required: the name with a birth date or an identifier (both where no typeface has the name). */
  person: { name: string; birthDate?: IsoDate; identifier?: string };
  /** Which stoma, as "Loop ileostomy, right side". */
  stomaLabel: string;
  madeOn: IsoDate;
  /** Days since surgery on `madeOn`; left out where the surgery date is unknown. */
  dayOfRecovery?: number;
  by: string;
  /** How the size was got, after "from": "a tracing", "a guide reading". */
  method: string;

  /** Outlines in millimetres as somebody who faces the person sees them: x to the person's left, y to the head. */
  stoma: Outline;
  /** The stoma grown by the gap. */
  opening: Outline;
  /** The opening with curves that scissors can follow: what is cut. */
  scissorPath: Outline;
  /** The gap that was asked for. */
  clearanceMm: number;
  /** The gap that the cut leaves, least and greatest. */
  gapEachSideMm: { min: number; max: number };
  /** Least and greatest width of the opening between parallel jaws. */
  holeAcrossMm: { min: number; max: number };

  /**
   * The day the opening stops fitting with its 80 % range, as days of recovery; no upper day: the range is open.
   * Left out: not known yet.
   */
  fitsUntil?: { day: number; on: IsoDate; lowerDay: number; upperDay?: number };
  /** The early limit of the 80 % range, where no day within reach is the likeliest. */
  fitsAtLeastUntil?: { day: number; on: IsoDate };
  measureAgainOn?: IsoDate;

  sheetNumber: number;
  /** The sheet that this one makes void. */
  replaces?: { sheetNumber: number; madeOn: IsoDate };
  /** True for invented people: says so on every page. */
  demo: boolean;

  /** The thresholds that the sheet states. */
  protocol: Pick<
    Protocol,
    "barrierMarginMm" | "barTolerancePercent" | "maxGapMm" | "unplannedCount" | "unplannedWindowDays"
  >;

  paper: Paper;
  /** What this printer made of the 100 mm bars, measured over nominal; the drawing is corrected by it. */
  printScale?: PrintScale;
}
