import { type Note, note } from "../../../domain/note.ts";
import { unreadable } from "../unreadable.ts";
import { type Length, mmPerPx, numberList, readLength } from "./length.ts";

/** From user units to millimetres, y turned up: `[a, b, c, d, e, f]` as in an SVG matrix. */
export interface ToMillimetres {
  matrix: readonly [number, number, number, number, number, number];
  /** Said where the file does not state its own size. */
  notes: Note[];
}

/**
 * The scale of a drawing from its width, height and viewBox.
 *
 * @source SVG 2, 8.2 (viewBox, `preserveAspectRatio`: the smaller of the two scales unless `none`)
 * @throws UnreadableTracing for a viewBox that is no box
 */
export function scaleOf(root: Readonly<Record<string, string>>): ToMillimetres {
  const [width, height] = [sizeOf(root.width), sizeOf(root.height)];
  const box = boxOf(root.viewBox);
  if (!box)
    return { matrix: upright(mmPerPx, mmPerPx), notes: stated(width) && stated(height) ? [] : [assumed()] };
  const across = width ? inMm(width) / box.width : null;
  const down = height ? inMm(height) / box.height : null;
  if (across === null && down === null) return { matrix: upright(mmPerPx, mmPerPx), notes: [assumed()] };
  const [x, y] = [across ?? down!, down ?? across!];
  const notes = stated(width) || stated(height) ? [] : [assumed()];
  if (root.preserveAspectRatio?.trim().startsWith("none")) return { matrix: upright(x, y), notes };
  const least = Math.min(x, y);
  return { matrix: upright(least, least), notes };
}

function upright(x: number, y: number): ToMillimetres["matrix"] {
  return [x, 0, 0, -y, 0, 0];
}

function sizeOf(text: string | undefined): Length | null {
  return text === undefined ? null : readLength(text);
}

function inMm(length: Length): number {
  return "mm" in length ? length.mm : length.units * mmPerPx;
}

/** A size in mm, cm or inches was meant; one in pixels depends on who wrote the file. */
function stated(length: Length | null): boolean {
  return length !== null && "unit" in length && length.unit !== "px";
}

function boxOf(text: string | undefined): { width: number; height: number } | null {
  if (text === undefined) return null;
  const [, , width, height] = numberList(text) ?? [];
  if (width === undefined || height === undefined || !(width > 0) || !(height > 0)) {
    return unreadable(
      "viewBox",
      `The file's viewBox “${text.slice(0, 40)}” is not a box, so its scale is not known.`,
    );
  }
  return { width, height };
}

function assumed(): Note {
  return note(
    "scaleAssumed",
    "The file does not state its size in millimetres: 96 pixels were taken as an inch. Check the size shown against the stoma.",
    { pxPerInch: 96 },
  );
}
