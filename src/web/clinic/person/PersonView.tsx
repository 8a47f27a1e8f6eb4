import { Link, useNavigate, useSearch } from "@tanstack/react-router";
import { useMemo, useState } from "react";
import type { PersonStory, StomaStory } from "../../../record/story/index.ts";
import { Choice, EmptyNote, ErrorNote, Footnotes, LoadingNote, Opening } from "../../shared/ui/index.ts";
import { stomaWords } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { Awaiting } from "./Awaiting.tsx";
import { correctionNotes } from "./footnotes.tsx";
import { headingWords, standingNote } from "./headingWords.ts";
import { History } from "./history/History.tsx";
import { LeakFree } from "./leakFree/LeakFree.tsx";
import { Matters } from "./matters/Matters.tsx";
import { outlookOf } from "./outlook.ts";
import { PhotosKept } from "./PhotosKept.tsx";
import { Ribbon } from "./ribbon/Ribbon.tsx";
import { SkinOverTime } from "./skin/SkinOverTime.tsx";
import { useHealing } from "./useHealing.ts";
import { useWrite } from "./writing/useWriting.ts";
import { WritingDialog } from "./writing/WritingDialog.tsx";
import { WritingMenu } from "./writing/WritingMenu.tsx";
import "./person.css";

/** Heading, what matters, the ribbon, the leak-free curve and everything that was written. */
export function PersonView({ story }: { story: PersonStory }) {
  const { today, may } = useBench();
  const wanted = useSearch({ from: "/people/$personId", select: ({ stoma }) => stoma });
  const stoma = story.stomas.find(({ stomaId }) => stomaId === wanted) ?? usualStoma(story);
  const footnotes = useMemo(() => correctionNotes(story, today), [story, today]);
  const write = useWrite();
  const [saved, setSaved] = useState("");
  return (
    <>
      <Opening
        title={story.details.name}
        beside={may.write && <WritingMenu story={story} stoma={stoma} onWrite={write} />}
      >
        <p>{headingWords(story.details, stoma, today)}</p>
        {standingNote(story, stoma) && (
          <p>
            <b>{standingNote(story, stoma)}</b>
          </p>
        )}
        <p role="status" className="person-saved">
          {saved}
        </p>
      </Opening>
      {story.stomas.length > 1 && stoma && <StomaChoice story={story} stoma={stoma} />}
      {stoma ? (
        <StomaParts key={stoma.stomaId} story={story} stoma={stoma} letters={footnotes.letters} />
      ) : (
        <EmptyNote>No stoma is on record.{may.write && " Write one down with “Add a stoma”."}</EmptyNote>
      )}
      <History story={story} letters={footnotes.letters} />
      <Footnotes label="Corrections" notes={footnotes.notes} />
      {may.lead && <LeadsLinks personId={story.personId} />}
      {may.write && <WritingDialog story={story} stoma={stoma} onSaved={setSaved} />}
    </>
  );
}

/** What the lead alone may do about a person, at the very end of the page. */
function LeadsLinks({ personId }: { personId: string }) {
  return (
    <p className="person-lead small">
      <Link to="/clinic/audit" search={{ person: personId }}>
        Who saw and changed what
      </Link>
      <Link to="/people/$personId/erase" params={{ personId }}>
        Erase this person on their request
      </Link>
    </p>
  );
}

/** The one written down first of those that are still there: a second one is usually the lesser. */
function usualStoma({ stomas }: PersonStory): StomaStory | undefined {
  return stomas.find(({ standing }) => standing !== "ended") ?? stomas.at(-1);
}

function StomaChoice({ story, stoma }: { story: PersonStory; stoma: StomaStory }) {
  const navigate = useNavigate({ from: "/people/$personId" });
  return (
    <div className="person-stomas">
      <Choice
        label="Stoma"
        value={stoma.stomaId}
        onChange={(stomaId) =>
          navigate({ search: (search) => ({ ...search, stoma: stomaId }), replace: true, resetScroll: false })
        }
        choices={story.stomas.map(({ stomaId, details }) => ({
          value: stomaId,
          label: details.label ?? stomaWords(details.type, details.construction),
        }))}
      />
    </div>
  );
}

function StomaParts({
  story,
  stoma,
  letters,
}: {
  story: PersonStory;
  stoma: StomaStory;
  letters: ReadonlyMap<string, string>;
}) {
  const { protocol, clinic, today } = useBench();
  const zone = clinic.details.timeZone;
  const [nowMs] = useState(() => Date.now());
  const { healing, ready, failed } = useHealing(stoma, protocol);
  const outlook = useMemo(
    () => outlookOf(stoma, healing, { protocol, zone, today, nowMs }),
    [stoma, healing, protocol, zone, today, nowMs],
  );
  return (
    <>
      <Awaiting personId={story.personId} stoma={stoma} />
      <div className="person-spread">
        <Ribbon stoma={stoma} healing={outlook.healing} letters={letters} nowMs={nowMs} />
        {ready ? (
          <Matters story={story} stoma={stoma} outlook={outlook} letters={letters}>
            {failed && (
              <ErrorNote>
                The healing curve could not be worked out in this browser: nothing here rests on it.
              </ErrorNote>
            )}
          </Matters>
        ) : (
          <LoadingNote what="the healing curve" />
        )}
      </div>
      <LeakFree stoma={stoma} nowMs={nowMs} />
      <SkinOverTime stoma={stoma} />
      <PhotosKept personId={story.personId} stomaId={stoma.stomaId} />
    </>
  );
}
