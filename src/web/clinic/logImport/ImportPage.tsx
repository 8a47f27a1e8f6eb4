import { Link, useParams, useSearch } from "@tanstack/react-router";
import type { PersonStory } from "../../../record/story/index.ts";
import { usePerson } from "../../shared/api/index.ts";
import { EmptyNote, Loaded, Opening } from "../../shared/ui/index.ts";
import { stomaWords } from "../../shared/words/index.ts";
import { ReadOnly, useBench } from "../frame/index.tsx";
import { FileChoice } from "./FileChoice.tsx";
import { Report } from "./Report.tsx";
import { Result } from "./Result.tsx";
import { useLogImport } from "./useLogImport.ts";
import { Waiting } from "./Waiting.tsx";
import "./logImport.css";

/** A log of changes from a file: checked first, then recorded whole or without its bad lines. */
export function ImportPage() {
  const { personId } = useParams({ from: "/people/$personId/import" });
  const { stoma: wanted } = useSearch({ from: "/people/$personId/import" });
  const person = usePerson(personId);
  return (
    <Loaded query={{ ...person, data: person.story ?? undefined }} what="the person">
      {(story) => <ImportFor story={story} wanted={wanted} />}
    </Loaded>
  );
}

function ImportFor({ story, wanted }: { story: PersonStory; wanted: string | undefined }) {
  const { may } = useBench();
  const stoma = story.stomas.find(({ stomaId }) => stomaId === wanted) ?? story.stomas.at(-1);
  if (!may.write) return <ReadOnly title="Import a log of changes" />;
  return (
    <>
      <Opening title="Import a log of changes">
        <p>
          <Link to="/people/$personId" params={{ personId: story.personId }}>
            {story.details.name}
          </Link>
          {stoma && `, ${stomaWords(stoma.details.type, stoma.details.construction)}`}
        </p>
      </Opening>
      {stoma ? (
        <Steps key={stoma.stomaId} personId={story.personId} stomaId={stoma.stomaId} />
      ) : (
        <EmptyNote>No stoma is on record: there is nothing a change could be about.</EmptyNote>
      )}
    </>
  );
}

function Steps({ personId, stomaId }: { personId: string; stomaId: string }) {
  const { state, choose, explainDates, accept, cancel, startAgain } = useLogImport(personId, stomaId);
  switch (state.step) {
    case "choosing":
      return <FileChoice onChoose={choose} error={state.error} stopped={state.stopped} />;
    case "checking":
    case "importing":
      return <Waiting state={state} onCancel={cancel} />;
    case "checked":
      return (
        <Report
          file={state.file}
          report={state.report}
          error={state.error}
          dateOrder={state.dateOrder}
          onDateOrder={explainDates}
          onAccept={accept}
          onStartAgain={startAgain}
        />
      );
    case "done":
      return <Result result={state.result} personId={personId} onStartAgain={startAgain} />;
  }
}
