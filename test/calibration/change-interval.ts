/**
 * Prints the calibration of the change interval, as it stands in docs/change-interval.md.
 * Run: npx tsx test/calibration/change-interval.ts [people]
 */
import { calibrate } from "./calibrate.ts";
import { populations } from "./population.ts";

const people = Number(process.argv[2] ?? 4000);
const seed = 20_240_117;

console.log(`${people} people a row, seed ${seed}\n`);
console.log(
  "| population | plan, days | wears | coverage | coverage as shown | given an interval | true risk | true risk, unbounded | mean interval, days |",
);
console.log("|---|---|---|---|---|---|---|---|---|");
for (const population of populations)
  for (const plannedDays of [3.5, 7])
    for (const wears of [0, 1, 3, 10]) {
      const row = calibrate(population, wears, { people, plannedDays, seed });
      const cells = [
        row.population,
        row.plannedDays,
        row.wears,
        percent(row.coverage),
        percent(row.coverageShown),
        percent(row.advised),
        percent(row.risk),
        percent(row.riskUnbounded),
        row.meanEstimateDays.toFixed(2),
      ];
      console.log(`| ${cells.join(" | ")} |`);
    }

function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}
