/** A protocol value with its unit, as the pages and the sentences under reasons write it. */
export function shownValue(value: number, unit: string): string {
  return unit === "%" ? `${value} %` : `${value} ${value === 1 ? singular(unit) : unit}`;
}

function singular(unit: string): string {
  return /^(days|hours|wears|changes|readings)$/.test(unit) ? unit.slice(0, -1) : unit;
}
