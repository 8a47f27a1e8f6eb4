import { calendarDaysBetween, type PlainDate } from "../../../domain/calendar.ts";
import { Sentence } from "../../shared/ui/index.ts";
import { plainDay } from "../../shared/words/index.ts";
import { GapTable, VerdictPart, verdictOf, warningsOf } from "./figures/index.ts";
import type { Figures } from "./useFigures.ts";
import type { OnPlate } from "./useOnPlate.ts";

/** The sentence that decides, the figures of both openings, and what is in doubt. */
export function FiguresPart({
  plate,
  figures,
  today,
}: {
  plate: OnPlate;
  figures: Figures;
  today: PlainDate;
}) {
  const { inUse, proposed, cut, forecast } = figures;
  const story = plate.story;
  const count = story?.readings.length ?? 0;
  const verdict = forecast.proposed && verdictOf(forecast.proposed, count, today);
  const inUseVerdict = forecast.inUse && verdictOf(forecast.inUse, count, today);
  const sentences = cautionsOf(plate, figures);
  return (
    <section className="fit-figures" aria-label="Figures">
      <VerdictPart outlook={forecast.proposed} verdict={verdict} waiting={forecast.waiting} today={today} />
      <GapTable
        inUse={cut && { figures: inUse, verdict: inUseVerdict }}
        inUseSince={cut ? sinceWords(cut.from, forecast.inUse, today) : ""}
        proposed={{ figures: proposed?.proposed ?? null, verdict }}
        surgeryKnown={forecast.proposed?.surgeryKnown ?? true}
        today={today}
      />
      {sentences.length > 0 && (
        <ul className="fit-doubts" aria-label="In doubt">
          {sentences.map((text) => (
            <li key={text}>
              <Sentence text={text} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Every sentence that asks for a second look, each once: none of them stops anybody. */
export function cautionsOf(plate: OnPlate, { proposed, forecast }: Figures): string[] {
  const texts = [
    ...plate.doubts.map(({ text }) => text),
    ...(proposed?.reasons ?? []).map(({ text }) => text),
    ...(forecast.proposed ? warningsOf(forecast.proposed) : []),
  ];
  return [...new Set(texts)];
}

/** "since day 13", or the date where nobody knows the day of surgery. */
function sinceWords(
  from: PlainDate,
  healing: { surgeryKnown: boolean; clockStartOn: PlainDate } | null,
  today: PlainDate,
): string {
  if (!healing?.surgeryKnown) return `since ${plainDay(from, today)}`;
  return `since day ${calendarDaysBetween(healing.clockStartOn, from)}`;
}
