type Place = readonly [x: number, y: number];

/** A line through places. */
export function path(places: readonly Place[]): string {
  return places.map(([x, y], index) => `${index === 0 ? "M" : "L"}${at(x)} ${at(y)}`).join("");
}

/** The area between an upper and a lower line over the same places. */
export function band(upper: readonly Place[], lower: readonly Place[]): string {
  if (upper.length === 0) return "";
  return `${path(upper)}${path([...lower].reverse()).replace("M", "L")}Z`;
}

/** A line that stays level and then steps: each place is where a new level begins. */
export function stepPath(places: readonly Place[]): string {
  return places.map(([x, y], index) => (index === 0 ? `M${at(x)} ${at(y)}` : `H${at(x)}V${at(y)}`)).join("");
}

function at(value: number): string {
  return value.toFixed(1);
}
