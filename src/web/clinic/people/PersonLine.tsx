import { Link } from "@tanstack/react-router";
import { calendarDaysBetween } from "../../../domain/calendar.ts";
import type { StomaRow } from "../../../record/projection/rows.ts";
import type { PeoplePage } from "../../../record/store/store.ts";
import { count, mm, plainDay, stomaWords } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";

type Person = PeoplePage["people"][number];

const standingWords = { active: "", paused: "in hospital", ended: "no longer on the list" } as const;

/** One person of the list: who, and for each stoma where it stands. */
export function PersonLine({ person }: { person: Person }) {
  const known = [person.birthDate && `born ${person.birthDate.slice(0, 4)}`, person.identifier];
  return (
    <li className="people-line">
      <p className="people-who">
        <Link to="/people/$personId" params={{ personId: person.personId }} data-line>
          {person.name}
        </Link>
        <span>{known.filter(Boolean).join(" · ")}</span>
        {person.standing !== "active" && <b>{standingWords[person.standing]}</b>}
      </p>
      <ul>
        {person.stomas.map((stoma) => (
          <StomaLine key={stoma.stomaId} stoma={stoma} />
        ))}
        {person.stomas.length === 0 && <li className="people-stoma">no stoma on record</li>}
      </ul>
    </li>
  );
}

function StomaLine({ stoma }: { stoma: StomaRow }) {
  const { today } = useBench();
  const day = stoma.surgeryOn ? `day ${count(calendarDaysBetween(stoma.surgeryOn, today))}` : "day unknown";
  const measured =
    stoma.lastMeasuredOn && stoma.lastLongestMm !== null
      ? `${mm(stoma.lastLongestMm)} on ${plainDay(stoma.lastMeasuredOn, today)}`
      : "not measured yet";
  return (
    <li className="people-stoma">
      <span>{day}</span>
      <span>
        {stomaWords(stoma.type, stoma.construction)}
        {stoma.label && `, ${stoma.label}`}
      </span>
      <span>{stoma.systemName ?? "no system on record"}</span>
      <span>{measured}</span>
    </li>
  );
}
