import { useNavigate, useParams, useSearch } from "@tanstack/react-router";
import { useState } from "react";
import type { StoredEntry } from "../../../record/entry/index.ts";
import type { PersonStory } from "../../../record/story/index.ts";
import { usePerson } from "../../shared/api/index.ts";
import { EmptyNote, Loaded, Opening } from "../../shared/ui/index.ts";
import { FittingBench } from "./FittingBench.tsx";
import { readingNamed, stomaIn } from "./subject.ts";

const here = "/people/$personId/stomas/$stomaId/fitting";

/** Measuring one stoma, judging its opening, and the sheet to cut the next one. */
export function FittingPage() {
  const { personId, stomaId } = useParams({ from: here });
  const { reading } = useSearch({ strict: false }) as { reading?: string };
  const person = usePerson(personId);
  return (
    <Loaded query={person} what="the record">
      {(entries) => (
        <FittingOf
          entries={entries}
          story={person.story ?? null}
          stomaId={stomaId}
          readingId={reading ?? null}
        />
      )}
    </Loaded>
  );
}

function FittingOf({
  entries,
  story,
  stomaId,
  readingId,
}: {
  entries: readonly StoredEntry[];
  story: PersonStory | null;
  stomaId: string;
  readingId: string | null;
}) {
  const navigate = useNavigate();
  const [correctingId, setCorrectingId] = useState<string | null>(null);
  const stoma = stomaIn(story, stomaId);
  if (!story || !stoma) {
    return (
      <>
        <Opening title="Fitting" />
        <EmptyNote>This stoma is not in the record, or it was taken back.</EmptyNote>
      </>
    );
  }
  const named = readingId ? readingNamed(stoma, readingId) : null;
  const correcting = correctingId ? readingNamed(stoma, correctingId) : null;
  const leave = () => {
    setCorrectingId(null);
    if (readingId) void navigate({ to: here, params: { personId: story.personId, stomaId } });
  };
  return (
    <>
      {readingId && !named && <EmptyNote>That reading is not in the record, or it was taken back.</EmptyNote>}
      <FittingBench
        key={`${stomaId} ${correcting ? `correcting ${correctingId}` : (named?.entryId ?? "new")}`}
        entries={entries}
        story={story}
        stoma={stoma}
        named={named}
        correcting={correcting}
        onCorrect={(reading) => setCorrectingId(reading.entryId)}
        onLeave={leave}
      />
    </>
  );
}
