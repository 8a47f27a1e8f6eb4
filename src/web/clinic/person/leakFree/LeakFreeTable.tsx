import { ScrollTable } from "../../../shared/ui/index.ts";
import { days } from "../../../shared/words/index.ts";
import type { SystemWear } from "./facts.ts";

/** The curve as figures: each day on which a barrier leaked. */
export function LeakFreeTable({ systems }: { systems: readonly SystemWear[] }) {
  return (
    <details className="chart-table">
      <summary>The same as a table</summary>
      {systems.map((system) => (
        <ScrollTable key={system.name} label={system.name}>
          <caption>{system.name}</caption>
          <thead>
            <tr>
              <th scope="col">Days worn</th>
              <th scope="col">At risk</th>
              <th scope="col">Leaks</th>
              <th scope="col">Still leak-free</th>
              <th scope="col">95 % limits</th>
            </tr>
          </thead>
          <tbody>
            {system.curve
              .filter(({ events }) => events > 0)
              .map((row) => (
                <tr key={row.days}>
                  <td>{days(row.days, 1)}</td>
                  <td>{shown(row.atRisk)}</td>
                  <td>{shown(row.events)}</td>
                  <td>{percent(row.survival)}</td>
                  <td>
                    {row.lower === null || row.upper === null
                      ? "none"
                      : `${percent(row.lower)} to ${percent(row.upper)}`}
                  </td>
                </tr>
              ))}
            {system.leaks === 0 && (
              <tr>
                <td colSpan={5}>No leak in {system.wears} wears.</td>
              </tr>
            )}
          </tbody>
        </ScrollTable>
      ))}
    </details>
  );
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

/** Where leaks lie between two looks the counts are expected numbers, not whole ones. */
function shown(value: number): string {
  return Number.isInteger(value) ? String(value) : value.toFixed(1);
}
