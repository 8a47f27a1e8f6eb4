/** A number with a point or a comma for its decimals; null for anything else. */
export function readNumber(text: string): number | null {
  const trimmed = text.trim();
  if (!/^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d{1,2})?$/i.test(trimmed)) return null;
  return Number(trimmed.replace(",", "."));
}

const unitsInMm: Record<string, number> = { mm: 1, cm: 10, in: 25.4, inch: 25.4, inches: 25.4 };

/** A heading such as `x`, `y_mm` or `X (cm)`. */
export interface Heading {
  axis: "x" | "y" | null;
  /** Millimetres in the unit that it names; null where it names one that has no length. */
  mmPerUnit: number | null;
}

export function readHeading(text: string): Heading {
  const words = text
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter(Boolean);
  const axis = words[0] === "x" || words[0] === "y" ? words[0] : null;
  const unit = words[1] ?? "mm";
  return { axis, mmPerUnit: unitsInMm[unit] ?? null };
}
