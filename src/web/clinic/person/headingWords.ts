import { calendarDaysBetween, type PlainDate } from "../../../domain/calendar.ts";
import type { BodyOf } from "../../../record/entry/index.ts";
import type { PersonStory, StomaStory } from "../../../record/story/index.ts";
import { count, fullDay, longDay, roughDay, stomaWords } from "../../shared/words/index.ts";

/** "Day 27, Wednesday 25 November · end ileostomy made 29 October 2026 · born 1958 · helper at home: Per" */
export function headingWords(
  person: BodyOf<"person">,
  stoma: StomaStory | undefined,
  today: PlainDate,
): string {
  const parts = [
    stoma ? recoveryDay(stoma, today) : longDay(today),
    stoma && madeWords(stoma, today),
    person.birthDate && `born ${person.birthDate.slice(0, 4)}`,
    person.identifier && `record ${person.identifier}`,
    person.caredForBy === "helper" || person.helperName
      ? `helper at home: ${person.helperName ?? "yes"}`
      : "",
    person.interpreter
      ? `needs an interpreter${person.language ? `, ${person.language}` : ""}`
      : person.language,
    person.phone,
  ];
  return parts.filter(Boolean).join(" · ");
}

function recoveryDay({ details: { surgeryOn } }: StomaStory, today: PlainDate): string {
  if (surgeryOn?.precision !== "day") return longDay(today);
  return `Day ${count(calendarDaysBetween(surgeryOn.date, today))}, ${longDay(today)}`;
}

function madeWords({ details }: StomaStory, today: PlainDate): string {
  const named = stomaWords(details.type, details.construction);
  const { surgeryOn } = details;
  if (!surgeryOn) return `${named}, surgery date not known`;
  const made = surgeryOn.precision === "day" ? fullDay(surgeryOn.date) : `in ${roughDay(surgeryOn, today)}`;
  return `${named} made ${made}`;
}

/** Why the lists do not ask after this person or stoma; empty while they do. */
export function standingNote(story: PersonStory, stoma: StomaStory | undefined): string {
  const last = story.events.map(({ entry }) => entry.body.what);
  if (last.includes("died")) return "Died. No list asks after this person.";
  if (story.standing === "ended") return "Moved away. No list asks after this person.";
  if (story.standing === "paused") return "In hospital: the lists pause until discharge is recorded.";
  if (stoma?.standing === "ended") return "This stoma was reversed. No list asks after it.";
  return "";
}
