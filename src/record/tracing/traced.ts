import { InputError } from "../../domain/fault.ts";
import { type Note, note } from "../../domain/note.ts";
import { areaMm2, dimensionsOf, type Outline, outlineOf, type Point } from "../../domain/outline/index.ts";

/** One closed line of a tracing file, in millimetres: x to the viewer's right, y up the page. */
export interface TracedOutline {
  /** The name it has in the file, or what it is and its number. */
  name: string;
  outline: Outline;
  /** Extent up and down the page, and across it. */
  lengthMm: number;
  widthMm: number;
  areaMm2: number;
  /** How far its ends lay apart before they were joined; 0 where the file closed it. */
  joinedMm: number;
  /** Why this line cannot be an outline (it crosses itself, and where); null when it can. */
  problem: Note | null;
}

/** What a tracing file held. */
export interface TracingFile {
  format: "svg" | "csv";
  outlines: TracedOutline[];
  /** What the reader must know: an assumed scale, shapes left out. */
  notes: Note[];
}

/** Ends that lie closer than this are one point; nothing is said of joining them. */
const samePlaceMm = 0.01;

/** Makes a traced outline of a line that may or may not come back to its start; null where it encloses nothing. */
export function tracedOutline(name: string, line: readonly Point[]): TracedOutline | null {
  const [first, last] = [line[0], line.at(-1)];
  if (!first || !last || line.length < 3) return null;
  const gapMm = Math.hypot(last[0] - first[0], last[1] - first[1]);
  const closed = gapMm < samePlaceMm ? line.slice(0, -1) : line;
  if (closed.length < 3) return null;
  const { lengthMm, widthMm, feretMinMm } = dimensionsOf(closed);
  if (!(feretMinMm >= samePlaceMm)) return null;
  const joinedMm = gapMm < samePlaceMm ? 0 : gapMm;
  const measured = { name, lengthMm, widthMm, joinedMm };
  try {
    const outline = outlineOf({ outline: closed });
    return { ...measured, outline, areaMm2: areaMm2(outline), problem: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { ...measured, outline: closed, areaMm2: areaMm2(closed), problem: problemOf(name, error) };
  }
}

function problemOf(name: string, error: InputError): Note {
  const [fault] = error.faults;
  const place = fault && Array.isArray(fault.got) ? (fault.got as number[]) : null;
  if (!place)
    return note("noOutline", `“${name}” is not a closed outline: ${fault?.problem ?? "it has no area"}.`);
  const [xMm, yMm] = place as [number, number];
  return note(
    "crossesItself",
    `“${name}” crosses itself at ${xMm.toFixed(1)} mm across and ${yMm.toFixed(1)} mm up. Trace it again as one line that does not cross.`,
    { xMm, yMm },
  );
}
