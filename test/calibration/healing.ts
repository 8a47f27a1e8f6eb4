/**
 * How often the truth lies within the 80 % limits of the healing curve, in invented populations. Prints the tables of
 * docs/healing-curve.md: npx tsx test/calibration/healing.ts [people a cell, default 500] [seed, default 1]
 */
import { type Coverage, coverage, flagged, type Misses } from "./healingCoverage.ts";
import { populations } from "./healingPopulation.ts";

const people = Number(process.argv[2] ?? 500);
let seed = Number(process.argv[3] ?? 1);
const methods = ["guide", "tracing"] as const;
const percent = (share: number) => `${(100 * share).toFixed(1)}`;
const millimetres = (mm: number) => mm.toFixed(1);

const misses = ({ missed, of }: Misses) => `${missed} of ${of}`;

const columns: { [Column in keyof Coverage]: (value: Coverage[Column]) => string } = {
  size7: percent,
  size14: percent,
  width7Mm: millimetres,
  fitsUntil: percent,
  soonerThanLower: misses,
  laterThanUpper: misses,
  failsWhenAdvised: percent,
  gapWhenAdvisedMm: millimetres,
};

printHead(["population", "method", "readings", ...Object.keys(columns)]);
for (const population of Object.keys(populations)) {
  for (const method of methods) {
    for (const readings of [3, 4, 6, 8]) {
      const cell = coverage(population, readings, method, people, seed++);
      const values = (Object.keys(columns) as (keyof Coverage)[]).map((column) => shownIn(cell, column));
      printRow([population, method, String(readings), ...values]);
    }
  }
}

const risesMm = [0, 2, 4, 6, 8, 10];
console.log();
printHead(["method", "readings", ...risesMm.map((mm) => `rise ${mm} mm`)]);
for (const method of methods) {
  for (const readings of [4, 6, 8]) {
    const shares = risesMm.map((mm) => percent(flagged(readings, method, mm, 4 * people, seed++)));
    printRow([method, String(readings), ...shares]);
  }
}

function shownIn<Column extends keyof Coverage>(cell: Coverage, column: Column): string {
  return columns[column](cell[column]);
}

function printHead(cells: string[]): void {
  printRow(cells);
  printRow(cells.map(() => "---"));
}

function printRow(cells: string[]): void {
  console.log(`| ${cells.join(" | ")} |`);
}
