/**
 * How often the truth lies within the 80 % bands of the emptying forecast, in invented populations. Prints the table
 * of docs/emptying.md: npx tsx test/calibration/emptying.ts [people a row, default 500] [seed, default 1]
 */
import { type OutputCoverage, outputCoverage } from "./outputCoverage.ts";
import { outputPopulations } from "./outputPopulation.ts";

const people = Number(process.argv[2] ?? 500);
const seed = Number(process.argv[3] ?? 1);
const columns: (keyof OutputCoverage)[] = [
  "given",
  "daily",
  "hourly",
  "third",
  "thirdSooner",
  "thirdLater",
  "half",
  "halfSooner",
  "halfLater",
  "nightStated",
  "nightSeen",
  "quiet",
];

print(["population", "days", ...columns]);
print(["---", "---", ...columns.map(() => "---")]);
for (const population of outputPopulations)
  for (const days of [2, 5, 14]) {
    const row = outputCoverage(population, days, people, seed);
    print([population.name, String(days), ...columns.map((column) => percent(row[column]))]);
  }

function percent(share: number | undefined): string {
  return share === undefined ? "" : (100 * share).toFixed(1);
}

function print(cells: string[]): void {
  console.log(`| ${cells.join(" | ")} |`);
}
