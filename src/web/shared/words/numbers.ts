/** "3,412" */
export function count(value: number): string {
  return value.toLocaleString("en-GB");
}

/** "36.5 mm": figure, space that does not break, unit. */
export function mm(value: number): string {
  return `${value.toFixed(1)}\u00a0mm`;
}

/** "32.0 to 35.0 mm", or one figure where both read the same. */
export function mmRange(from: number, to: number): string {
  return from.toFixed(1) === to.toFixed(1) ? mm(to) : `${from.toFixed(1)} to ${mm(to)}`;
}

/** "1 day", "3 days", "2.5 days" */
export function days(value: number, digits = Number.isInteger(value) ? 0 : 1): string {
  return `${value.toFixed(digits)} ${value === 1 ? "day" : "days"}`;
}

/** "1 person", "3 people" */
export function counted(value: number, one: string, many: string): string {
  return `${count(value)} ${value === 1 ? one : many}`;
}

/** Small numbers as words at the start of a sentence: "One", "Two", … "Twelve", then figures. */
export function capitalNumber(value: number): string {
  const words = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten"];
  return words[value] ?? count(value);
}

/** The same inside a sentence. */
export function numberWord(value: number): string {
  return capitalNumber(value).toLowerCase();
}

/** "3 to 5" */
export function range(from: string, to: string): string {
  return from === to ? from : `${from} to ${to}`;
}

/**
 * What a person typed as a number: a decimal point or a decimal comma, no thousands marks.
 * Null when it is not one; blank is null too, and callers tell the two apart by the text.
 */
export function readDecimal(text: string): number | null {
  const plain = text.trim().replace(",", ".");
  return /^[-−+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain.replace("−", "-")) : null;
}
