/** More than any value of the protocol is known to; thirds would run off the page. */
const digits = 5;

/** A protocol value with its unit, as the pages and the sentences under reasons write it. */
export function shownValue(value: number, unit: string): string {
  const figure = Number(value.toPrecision(digits));
  if (unit === "share") return `${figure} (${Math.round(value * 1000) / 10} %)`;
  return `${figure} ${value === 1 ? singular(unit) : unit}`.trim();
}

function singular(unit: string): string {
  return /^(days|hours|wears|changes|readings|times)$/.test(unit) ? unit.slice(0, -1) : unit;
}
