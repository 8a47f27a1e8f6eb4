import { addDays } from "../../../../domain/calendar.ts";
import type { Healing, StomaStory } from "../../../../record/story/index.ts";
import { extentOf } from "../../../../record/story/readings.ts";
import { ScrollTable } from "../../../shared/ui/index.ts";
import { mm, mmRange, plainDay, shortDay } from "../../../shared/words/index.ts";
import { useBench } from "../../frame/index.tsx";
import type { RibbonFacts } from "./facts.ts";

/** The same facts as a table. */
export function RibbonTable({
  stoma,
  healing,
  facts,
}: {
  stoma: StomaStory;
  healing: Healing | null;
  facts: RibbonFacts;
}) {
  const { today } = useBench();
  return (
    <details className="chart-table">
      <summary>The same as a table</summary>
      <ScrollTable label="Readings and openings">
        <caption>Readings and openings, newest first</caption>
        <thead>
          <tr>
            {facts.surgeryKnown && <th scope="col">Day</th>}
            <th scope="col">Date</th>
            <th scope="col">What</th>
            <th scope="col">Across</th>
          </tr>
        </thead>
        <tbody>
          {rows(stoma).map(({ key, on, what, across }) => (
            <tr key={key}>
              {facts.surgeryKnown && <td>{dayOf(on, facts)}</td>}
              <td>{plainDay(on, today)}</td>
              <td>{what}</td>
              <td>{across}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      <p className="small">{forecastWords(healing, facts)}</p>
    </details>
  );
}

function rows({ readings, openings }: StomaStory) {
  const read = readings.map((reading) => ({
    key: reading.entryId,
    on: reading.on,
    what: `Reading, ${reading.method}`,
    across: mmRange(reading.narrowestMm, reading.longestMm),
  }));
  const cut = openings.map((opening) => {
    const [longest, narrowest] = extentOf(opening.shape);
    return {
      key: opening.entryId,
      on: opening.from,
      what: "Opening put into use",
      across: mmRange(narrowest, longest),
    };
  });
  return [...read, ...cut].sort((a, b) => b.on.localeCompare(a.on));
}

function dayOf(on: string, facts: RibbonFacts): number {
  return Math.round((Date.parse(on) - Date.parse(facts.clockStartOn)) / 86_400_000);
}

function forecastWords(healing: Healing | null, facts: RibbonFacts): string {
  const last = facts.forecast?.at(-1);
  if (!healing || !last) return "There is no fitted curve: the readings do not carry one yet.";
  const on = shortDay(addDays(facts.clockStartOn, last.day));
  return `The curve runs to ${on}: ${mm(last.mm)} then, 80 % range ${mmRange(last.lower80, last.upper80)}.`;
}
