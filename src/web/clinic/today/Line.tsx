import { Link } from "@tanstack/react-router";
import { calendarDaysBetween } from "../../../domain/calendar.ts";
import type { TodayLine } from "../../../record/today/index.ts";
import { count, stomaWords } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { ReasonLine } from "../reasons/index.ts";
import { WearSpark } from "./WearSpark.tsx";

/** One person: why, what to do, and a small picture where the record holds one. */
export function Line({ line: { person, stoma, reasons, wears } }: { line: TodayLine }) {
  const { today, protocol } = useBench();
  const day = stoma.surgeryOn ? calendarDaysBetween(stoma.surgeryOn, today) : null;
  const about = [
    day === null ? "surgery date unknown" : `day ${count(day)}`,
    stomaWords(stoma.type, stoma.construction),
    stoma.label,
  ];
  const shortWears = reasons.some(({ code }) => code === "shortWear" || code === "unplannedChanges");
  return (
    <li className="today-line">
      <div>
        <p className="today-who">
          <Link
            to="/people/$personId"
            params={{ personId: person.personId }}
            search={{ stoma: stoma.stomaId }}
            data-line
          >
            {person.name}
          </Link>
          <span>{about.filter(Boolean).join(" · ")}</span>
        </p>
        {reasons.map((reason) => (
          <ReasonLine key={reason.code} reason={reason} />
        ))}
      </div>
      <Acts acts={[...new Set(reasons.map(({ act }) => act))]} />
      {shortWears && wears.length > 1 && <WearSpark wears={wears} limitDays={protocol.shortWearHours / 24} />}
    </li>
  );
}

function Acts({ acts: [first, ...more] }: { acts: string[] }) {
  return (
    <p className="today-do">
      {first}
      {more.map((act) => (
        <small key={act}>{act}</small>
      ))}
    </p>
  );
}
