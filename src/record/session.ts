import type { PlainDate } from "../domain/calendar.ts";
import type { Protocol } from "../domain/protocol/index.ts";
import type { Author, BodyOf } from "./entry/index.ts";

/** What every page of the bench needs to know first. */
export interface Session {
  /** Null before the clinic was set up. */
  clinic: { clinicId: string; details: BodyOf<"clinic"> } | null;
  author: Author | null;
  /** The folder holds invented people only. */
  demo: boolean;
  today: PlainDate;
  protocol: Protocol;
  protocolVersion: number;
  programVersion: string;
  counts: { people: number; active: number; entries: number };
}
