import { useMemo, useState } from "react";
import type { Effective } from "../../../../record/effective/index.ts";
import { calendarDaysBetween, dateOf, type Kind, type PlainDate } from "../../../../record/entry/index.ts";
import type { PersonStory } from "../../../../record/story/index.ts";
import { Button, EmptyNote, Select } from "../../../shared/ui/index.ts";
import { counted, kindWords, longDay, plainDay } from "../../../shared/words/index.ts";
import { useBench } from "../../frame/index.tsx";
import { EntryLine } from "./EntryLine.tsx";
import "./history.css";

const atOnce = 40;

/** Everything that was written, newest first, by day; corrections and what was taken back stay readable. */
export function History({ story, letters }: { story: PersonStory; letters: ReadonlyMap<string, string> }) {
  const [kind, setKind] = useState<Kind | "all">("all");
  const [limit, setLimit] = useState(atOnce);
  const chosen = useMemo(
    () => story.history.filter(({ entry }) => kind === "all" || entry.kind === kind),
    [story, kind],
  );
  const shown = useMemo(() => byDay(chosen.slice(0, limit)), [chosen, limit]);
  return (
    <section className="history">
      <header>
        <h2>Entries</h2>
        <Select label="Show" value={kind} onChange={setKind} choices={kindChoices(story)} />
        <p className="note" role="status">
          {counted(chosen.length, "entry", "entries")}
        </p>
        <TakeOutLog story={story} />
      </header>
      {chosen.length === 0 && <EmptyNote>Nothing of this kind was written yet.</EmptyNote>}
      <ol className="history-days">
        {shown.map(({ on, entries }) => (
          <Day key={on} on={on} entries={entries} story={story} letters={letters} />
        ))}
      </ol>
      {chosen.length > limit && (
        <p className="formend">
          <Button onClick={() => setLimit(limit + atOnce * 2)}>Show older entries</Button>
        </p>
      )}
    </section>
  );
}

function kindChoices({ history }: PersonStory): { value: Kind | "all"; label: string }[] {
  const kinds = [...new Set(history.map(({ entry }) => entry.kind))];
  return [
    { value: "all", label: "Everything" },
    ...kinds.map((value) => ({ value, label: kindWords[value] })),
  ];
}

function TakeOutLog({ story }: { story: PersonStory }) {
  const logged = story.stomas.filter(({ changes }) => changes.length > 0);
  if (logged.length === 0) return null;
  return (
    <p className="history-logs small">
      {logged.map(({ stomaId, details }) => (
        <a key={stomaId} href={`/api/people/${story.personId}/changes.csv?stomaId=${stomaId}`} download>
          Take out the log of changes{logged.length > 1 && details.label ? ` (${details.label})` : ""}, CSV
        </a>
      ))}
    </p>
  );
}

/** "day 27"; none before surgery, nor where stomas of different days share the list. */
function recoveryDay({ stomas }: PersonStory, on: PlainDate): string | null {
  const made = new Set(
    stomas.map(({ details: { surgeryOn } }) => (surgeryOn?.precision === "day" ? surgeryOn.date : "")),
  );
  const [date] = made;
  if (made.size !== 1 || !date || on < date) return null;
  return `day ${calendarDaysBetween(date, on)}`;
}

interface DayOfEntries {
  on: string;
  entries: Effective[];
}

/** The history in its order, cut where the date changes. */
function byDay(history: readonly Effective[]): DayOfEntries[] {
  const days: DayOfEntries[] = [];
  for (const one of history) {
    const on = dateOf(one.entry.at);
    const last = days.at(-1);
    if (last?.on === on) last.entries.push(one);
    else days.push({ on, entries: [one] });
  }
  return days;
}

function Day({
  on,
  entries,
  story,
  letters,
}: DayOfEntries & { story: PersonStory; letters: ReadonlyMap<string, string> }) {
  const { today } = useBench();
  const day = recoveryDay(story, on);
  const sameYear = on.slice(0, 4) === today.slice(0, 4);
  return (
    <li className="history-day">
      <h3>
        {sameYear ? longDay(on) : plainDay(on, today)}
        {day && <span>{day}</span>}
      </h3>
      <ul>
        {entries.map((one) => (
          <EntryLine key={one.first.id} one={one} letter={letters.get(one.entry.id)} story={story} />
        ))}
      </ul>
    </li>
  );
}
