/** A protocol value with its unit, as the pages and the sentences under reasons write it. */
export function shownValue(value: number, unit: string): string {
  if (unit === "share") return `${value} (${Math.round(value * 1000) / 10} %)`;
  return `${value} ${value === 1 ? singular(unit) : unit}`.trim();
}

function singular(unit: string): string {
  return /^(days|hours|wears|changes|readings|times)$/.test(unit) ? unit.slice(0, -1) : unit;
}
