import { unreadable } from "../unreadable.ts";

/** CSS pixels in an inch: also the size of an SVG user unit where nothing else says so. @source CSS Values 4, 5.2 */
const pxPerInch = 96;
export const mmPerPx = 25.4 / pxPerInch;

/** Millimetres in each unit of length that SVG knows. */
const mmPer: Record<string, number> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  px: mmPerPx,
};

const lengthPattern = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z%]*)\s*$/i;

/** A length of a file: millimetres where it carries a unit, user units where it carries none. */
export type Length = { mm: number; unit: string } | { units: number };

/** Reads `31mm`, `1.2 in`, `300`; null for what is not a length in itself (`100%`, `auto`, `2em`). */
export function readLength(text: string): Length | null {
  const [, digits, unit = ""] = lengthPattern.exec(text) ?? [];
  if (digits === undefined) return null;
  const value = Number(digits);
  if (!Number.isFinite(value)) return null;
  if (unit === "") return { units: value };
  const mm = mmPer[unit.toLowerCase()];
  return mm === undefined ? null : { mm: value * mm, unit: unit.toLowerCase() };
}

/** A coordinate or radius of a shape in user units. @throws UnreadableTracing for percentages and the like */
export function userUnits(text: string | undefined, attribute: string): number {
  if (text === undefined) return 0;
  const length = readLength(text);
  if (!length) {
    return unreadable(
      "length",
      `The file gives ${attribute} as “${text.slice(0, 30)}”, which is no length in itself.`,
      {
        attribute,
      },
    );
  }
  return "units" in length ? length.units : length.mm / mmPerPx;
}

/** The numbers of `viewBox` or `points`; null where one of them is none. */
export function numberList(text: string): number[] | null {
  const numbers = text
    .trim()
    .split(/[\s,]+/)
    .filter(Boolean)
    .map(Number);
  return numbers.every(Number.isFinite) ? numbers : null;
}
