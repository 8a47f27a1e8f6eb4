import { Link } from "@tanstack/react-router";
import { calendarDaysBetween } from "../../../domain/calendar.ts";
import type { PersonStory, Reading, StomaStory } from "../../../record/story/index.ts";
import { Button, Opening } from "../../shared/ui/index.ts";
import { longDay, mm, stomaWords, whenWords } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import type { OnPlate } from "./useOnPlate.ts";

/** Whose stoma this is, which day of recovery, and which reading lies on the plate. */
export function FittingHead({
  story,
  stoma,
  plate,
  shown,
  looking,
  correcting,
  onCorrect,
  onLeave,
}: {
  story: PersonStory;
  stoma: StomaStory;
  plate: OnPlate;
  shown: Reading | null;
  looking: boolean;
  correcting: Reading | null;
  onCorrect: (reading: Reading) => void;
  onLeave: () => void;
}) {
  const { today, may } = useBench();
  const { details } = stoma;
  const kind = details.label ?? stomaWords(details.type, details.construction);
  const surgery = details.surgeryOn;
  const day = surgery ? `day ${calendarDaysBetween(surgery.date, today)}, ` : "";
  return (
    <div className="fit-head">
      <Opening title="Fitting">
        <p>
          <Link to="/people/$personId" params={{ personId: story.personId }}>
            {story.details.name}
          </Link>
          , {kind}, {day}
          {longDay(today)}
        </p>
        <p className="small">
          {correcting ? (
            <>Correcting the reading of {readingWords(correcting, today)}.</>
          ) : plate.writing ? (
            <>A new reading, not saved yet.</>
          ) : shown ? (
            <>
              On the plate: the reading of {readingWords(shown, today)}.{" "}
              {may.write && (
                <Button className="fit-quiet" onClick={() => onCorrect(shown)}>
                  Correct this reading
                </Button>
              )}
              {may.write && looking && (
                <Button className="fit-quiet" onClick={onLeave}>
                  Measure again
                </Button>
              )}
            </>
          ) : (
            <>No reading yet.</>
          )}
        </p>
        {stoma.standing === "ended" && (
          <p className="small">
            <b>This stoma is no longer followed:</b> what is written here is for the record only.
          </p>
        )}
      </Opening>
    </div>
  );
}

const methodWords = {
  guide: "by guide",
  tracing: "traced",
  typed: "typed",
  photo: "from a photograph",
} as const;

/** "today 08:10, traced, lying, 31.0 × 28.0 mm, by Ines Varga" */
function readingWords({ source, method, longestMm, narrowestMm }: Reading, today: string): string {
  const { at, body, by } = source.entry;
  const size = longestMm === narrowestMm ? mm(longestMm) : `${longestMm.toFixed(1)} × ${mm(narrowestMm)}`;
  return [whenWords(at, today), methodWords[method], body.posture, size, `by ${by.name}`]
    .filter(Boolean)
    .join(", ");
}
