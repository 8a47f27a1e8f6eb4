import type { Score } from "../photo/score/score.ts";

export interface Measured extends Score {
  uncertaintyMm: number;
}

export interface MeasuredSet {
  name: string;
  rows: readonly Measured[];
}

const colours = ["#1b6e8a", "#9a9a9a", "#c0562f"];
const side = 300;
const marks = ["circle", "square", "cross"] as const;
const mostMm = 3;
const mostTimes = 2.5;

/**
 * Two pictures in one: each photograph's error beside its stated uncertainty, and the share of photographs whose error
 * is at most so many times the uncertainty, beside that of a normal error with four of five within one.
 */
export function drawCalibration(sets: readonly MeasuredSet[]): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 780 400" font-family="sans-serif" font-size="13" fill="#222">`,
    `<rect width="780" height="400" fill="white"/>`,
    `<g transform="translate(60,30)">${errorsBesideUncertainty(sets)}</g>`,
    `<g transform="translate(450,30)">${sharesWithin(sets)}</g>`,
    `</svg>`,
    "",
  ].join("\n");
}

function errorsBesideUncertainty(sets: readonly MeasuredSet[]): string {
  const at = (mm: number) => (mm / mostMm) * side;
  const dots = sets.flatMap(({ rows }, set) =>
    rows.map((row) =>
      mark(set, at(row.uncertaintyMm), side - at(Math.min(mostMm, Math.abs(row.diameterErrorMm)))),
    ),
  );
  return [
    axes("stated uncertainty, mm", "error of the diameter, mm", [0, 1, 2, 3], mostMm),
    `<path d="M0 ${side} L${side} 0" stroke="#222" stroke-dasharray="4 4"/>`,
    `<text x="${side - 6}" y="32" text-anchor="end">outside</text>`,
    `<text x="${side - 6}" y="${side - 12}" text-anchor="end">within</text>`,
    ...dots,
  ].join("");
}

function sharesWithin(sets: readonly MeasuredSet[]): string {
  const steps = Array.from({ length: 101 }, (_, k) => (k / 100) * mostTimes);
  const path = (share: (times: number) => number) =>
    steps
      .map(
        (times, k) =>
          `${k === 0 ? "M" : "L"}${((times / mostTimes) * side).toFixed(1)} ${(side * (1 - share(times))).toFixed(1)}`,
      )
      .join("");
  const lines = sets.map(({ rows }, set) => {
    const times = rows.map((row) => Math.abs(row.diameterErrorMm) / row.uncertaintyMm);
    const share = (most: number) => times.filter((value) => value <= most).length / times.length;
    return `<path d="${path(share)}" fill="none" stroke="${colours[set]}" stroke-width="2"/>`;
  });
  const key = sets.map(
    ({ name, rows }, set) =>
      `<g transform="translate(170,${side - 78 + 20 * set})">${mark(set, 0, -4)}<text x="12">${name} (${rows.length})</text></g>`,
  );
  return [
    axes("error over stated uncertainty", "share of photographs", [0, 1, 2], mostTimes),
    `<path d="M${side / mostTimes} 0 V${side}" stroke="#bbb"/>`,
    `<path d="M0 ${side * 0.25} H${side} M0 ${side * 0.15} H${side}" stroke="#ddd"/>`,
    `<path d="${path((times) => normalShare(1.2816 * times))}" fill="none" stroke="#222" stroke-dasharray="4 4"/>`,
    ...lines,
    ...key,
  ].join("");
}

function axes(across: string, up: string, ticks: readonly number[], most: number): string {
  const onX = ticks.map(
    (tick) => `<text x="${(tick / most) * side}" y="${side + 18}" text-anchor="middle">${tick}</text>`,
  );
  const upTicks =
    most === mostMm
      ? ticks.map((tick) => [tick / most, String(tick)] as const)
      : ([
          [0, "0"],
          [0.5, "50 %"],
          [0.75, "75 %"],
          [0.85, "85 %"],
          [1, "100 %"],
        ] as const);
  const onY = upTicks.map(
    ([share, text]) => `<text x="-6" y="${side * (1 - share) + 4}" text-anchor="end">${text}</text>`,
  );
  return [
    `<path d="M0 0 V${side} H${side}" fill="none" stroke="#222"/>`,
    ...onX,
    ...onY,
    `<text x="${side / 2}" y="${side + 40}" text-anchor="middle">${across}</text>`,
    `<text transform="translate(-44,${side / 2}) rotate(-90)" text-anchor="middle">${up}</text>`,
  ].join("");
}

/** Each set has its own shape as well as its own colour. */
function mark(set: number, x: number, y: number): string {
  const at = `transform="translate(${x.toFixed(1)},${y.toFixed(1)})"`;
  const shape = marks[set % marks.length]!;
  if (shape === "circle") return `<circle ${at} r="4" fill="${colours[set]}"/>`;
  if (shape === "square") return `<path ${at} d="M-3 -3h6v6h-6z" fill="${colours[set]}"/>`;
  return `<path ${at} d="M-4 -4l8 8M4 -4l-8 8" stroke="${colours[set]}" stroke-width="2"/>`;
}

/** Share of a normal error within so many standard deviations (Abramowitz & Stegun 7.1.26, from memory). */
function normalShare(deviations: number): number {
  const x = deviations / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return 1 - tail * Math.exp(-x * x);
}
