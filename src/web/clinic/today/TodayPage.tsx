import { useQueryClient } from "@tanstack/react-query";
import { Link } from "@tanstack/react-router";
import { useState } from "react";
import { addDays, type PlainDate } from "../../../domain/calendar.ts";
import type { Today, TodayLine } from "../../../record/today/index.ts";
import { useToday } from "../../shared/api/index.ts";
import { EmptyNote, ErrorNote, Loaded, Opening } from "../../shared/ui/index.ts";
import { counted, longDay, timeOfDay } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { countsSentence } from "./counts.ts";
import { KeysDialog } from "./KeysDialog.tsx";
import { Line } from "./Line.tsx";
import { useKeys } from "./useKeys.ts";
import "./today.css";

/** Whom to see or call and why, most urgent first. */
export function TodayPage() {
  const { today, may } = useBench();
  const query = useToday();
  const lines = query.data?.lines.map(({ level, person }) => ({ level, personId: person.personId }));
  const [showKeys, setShowKeys] = useState(false);
  useKeys({ onHelp: () => setShowKeys(true), mayWrite: may.write });
  return (
    <>
      <Opening
        title={longDay(query.data?.on ?? today)}
        lead={lines && countsSentence(lines)}
        beside={<KeyHints onShow={() => setShowKeys(true)} />}
      />
      {query.data && query.isError && <StaleNote />}
      <Loaded query={query} what="today’s list">
        {(data) => <Groups today={data} />}
      </Loaded>
      {showKeys && <KeysDialog mayWrite={may.write} onClose={() => setShowKeys(false)} />}
    </>
  );
}

function StaleNote() {
  const { clinic } = useBench();
  const fetchedMs = useQueryClient().getQueryState(["today"])?.dataUpdatedAt;
  if (!fetchedMs) return null;
  const at = timeOfDay(new Date(fetchedMs).toISOString(), clinic.details.timeZone);
  return <ErrorNote>{`This list is as of ${at}: it could not be made anew.`}</ErrorNote>;
}

function KeyHints({ onShow }: { onShow: () => void }) {
  return (
    <p className="today-keys">
      <span>
        <kbd>J</kbd> <kbd>K</kbd> move
      </span>
      <span>
        <kbd>Enter</kbd> open
      </span>
      <button type="button" onClick={onShow}>
        <kbd>?</kbd> all keys
      </button>
    </p>
  );
}

function Groups({ today: { lines, others, on } }: { today: Today }) {
  const of = (level: TodayLine["level"]) => lines.filter((line) => line.level === level);
  return (
    <>
      <Group weight="now" title="Now" when="Ring before anything else" lines={of("now")} />
      <Group weight="day" title="Today" when="Speak to them before you go home" lines={of("sameDay")} />
      <Group
        weight="week"
        title="This week"
        when={`Fit in by ${longDay(sundayOf(on))}`}
        lines={of("nextContact")}
      />
      <Others listed={new Set(lines.map(({ person }) => person.personId)).size} others={others} />
    </>
  );
}

/** The Sunday on or after a date. */
function sundayOf(date: PlainDate): PlainDate {
  const weekday = new Date(`${date}T00:00:00Z`).getUTCDay();
  return addDays(date, (7 - weekday) % 7);
}

function Group({
  weight,
  title,
  when,
  lines,
}: {
  weight: "now" | "day" | "week";
  title: string;
  when: string;
  lines: TodayLine[];
}) {
  if (lines.length === 0) return null;
  return (
    <section className={`today-group ${weight}`}>
      <header>
        <h2>{title}</h2>
        <p className="note">{when}</p>
      </header>
      <ol>
        {lines.map((line) => (
          <Line key={line.stoma.stomaId} line={line} />
        ))}
      </ol>
    </section>
  );
}

function Others({ listed, others }: { listed: number; others: number }) {
  const { may } = useBench();
  if (listed + others === 0) {
    return (
      <EmptyNote>
        There is nobody on the caseload yet. {may.write && <Link to="/people/new">Add the first person</Link>}
      </EmptyNote>
    );
  }
  return (
    <p className="today-rest">
      <span>
        {others > 0
          ? `${counted(others, listed ? "other" : "person", listed ? "others" : "people")}: nothing passes a protocol value.`
          : "Everybody on the caseload stands above."}
      </span>
      <Link to="/people">Show all people</Link>
    </p>
  );
}
