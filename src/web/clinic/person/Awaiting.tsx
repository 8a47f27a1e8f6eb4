import { Link } from "@tanstack/react-router";
import type { Reading, StomaStory } from "../../../record/story/index.ts";
import { draftEntry, useAppend } from "../../shared/api/index.ts";
import { useDraft } from "../../shared/draft/index.ts";
import { Button, ErrorNote } from "../../shared/ui/index.ts";
import { mm, whenWords } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";

/** Sizes sent from home that count nowhere until a nurse has looked at them. */
export function Awaiting({ personId, stoma }: { personId: string; stoma: StomaStory }) {
  if (stoma.awaiting.length === 0) return null;
  return (
    <section className="person-awaiting">
      <h2>Sent from home, not accepted yet</h2>
      <p className="note">Nothing is reckoned from these until you accept them.</p>
      <ul>
        {stoma.awaiting.map((reading) => (
          <Sent key={reading.entryId} {...{ personId, reading }} stomaId={stoma.stomaId} />
        ))}
      </ul>
    </section>
  );
}

function Sent({ personId, stomaId, reading }: { personId: string; stomaId: string; reading: Reading }) {
  const { today, may } = useBench();
  const append = useAppend();
  const { entry } = reading.source;
  // The id is made once, so that a second try is the same acceptance.
  const kept = useDraft(`accept:${entry.id}`, () => ({}));
  const accept = () => {
    const { unconfirmed: _waiting, ...body } = entry.body;
    const about = { id: kept.id, personId, stomaId, at: entry.at };
    append.mutate(
      [
        draftEntry("measured", body, {
          ...about,
          corrects: { id: entry.id, as: "replace" },
          reason: "Accepted as it was sent.",
        }),
      ],
      { onSuccess: kept.forget },
    );
  };
  const size =
    reading.longestMm === reading.narrowestMm
      ? mm(reading.longestMm)
      : `${reading.longestMm.toFixed(1)} by ${mm(reading.narrowestMm)}`;
  return (
    <li>
      <p>
        <b>{size}</b> across, {whenWords(entry.at, today)}, from {entry.reportedBy ?? entry.by.name}
        {reading.sdMm !== undefined && `, give or take ${mm(1.2816 * reading.sdMm)} four times in five`}.
      </p>
      <ErrorNote error={append.error} />
      {may.write && (
        <p className="formend">
          <Button first busy={append.isPending} onClick={accept}>
            Accept it as it is
          </Button>
          <Link
            className="button"
            to="/people/$personId"
            params={{ personId }}
            search={{ write: "correct", entry: entry.id, stoma: stomaId }}
          >
            Correct it first
          </Link>
          <Link
            className="button"
            to="/people/$personId"
            params={{ personId }}
            search={{ write: "takeBack", entry: entry.id, stoma: stomaId }}
          >
            Do not use it
          </Link>
        </p>
      )}
    </li>
  );
}
