import type { Outline, Point } from "../../domain/outline/index.ts";
import type { Protocol } from "../../domain/protocol/index.ts";
import type { SitingPosture, SitingQuestion } from "../../domain/siting/index.ts";
import type { Paper, PrintScale } from "../drawing/paper.ts";
import type { IsoDate } from "../words.ts";

/** A place that was marked on the skin. */
export interface SitingMark {
  /** 1 is the first choice. */
  rank: number;
  at: Point;
  drawnAs: "cross" | "filledCircle" | "notDrawn";
  covered?: boolean;
  note?: string;
}

/** What the one-page siting record says and shows; distances and region are computed from it. */
export interface SitingRecord {
  clinic: { name: string; nursePhone: string };
  /** Two identifiers are required: the name with a birth date or an identifier. */
  person: { name: string; birthDate?: IsoDate; identifier?: string };
  procedure?: string;
  surgeonName?: string;
  /** The short form: what was not looked at is missing, and the page says so. */
  emergency: boolean;
  continentPlan: boolean;
  madeOn: IsoDate;
  by: string;

  question: SitingQuestion;
  protocol: Protocol;
  /** The front of the abdomen from tape readings, to draw on. */
  outline?: Outline;
  /** Up to three are shown, by rank. */
  marks: readonly SitingMark[];

  postures: readonly SitingPosture[];
  muscleFoundBy?: "headRaise" | "legLift" | "cough" | "notFound";
  sees?: boolean;
  reaches?: boolean;
  consent: {
    given: boolean;
    how: "spoken" | "written";
    by: "person" | "representative";
    representativeName?: string;
  };
  note?: string;

  /** True for invented people: says so on the page. */
  demo: boolean;
  paper: Paper;
  printScale?: PrintScale;
}
