import { useState } from "react";
import type { StoredEntry } from "../../../record/entry/index.ts";
import { type PersonStory, type Reading, type StomaStory, systemOn } from "../../../record/story/index.ts";
import { useBench } from "../frame/index.tsx";
import { ActionsPart } from "./ActionsPart.tsx";
import { FiguresPart } from "./FiguresPart.tsx";
import { FittingHead } from "./FittingHead.tsx";
import { PlatePart } from "./PlatePart.tsx";
import { SkinDialog, usePhotoWay } from "./photo/index.ts";
import { ReadingPart } from "./ReadingPart.tsx";
import { useSaveReading } from "./saving/index.ts";
import { startOf } from "./start.ts";
import { clearanceOf, useFitting, usualClearance } from "./state/index.ts";
import { useFigures } from "./useFigures.ts";
import { useOnPlate } from "./useOnPlate.ts";
import { usePlateTool } from "./usePlateTool.ts";
import { ImportDialog } from "./ways/index.ts";
import "./fitting.css";

export interface FittingBenchProps {
  entries: readonly StoredEntry[];
  story: PersonStory;
  stoma: StomaStory;
  /** The reading that the address names: looked at, not written. */
  named: Reading | null;
  /** The reading that is corrected. */
  correcting: Reading | null;
  onCorrect: (reading: Reading) => void;
  /** Back to writing a new reading. */
  onLeave: () => void;
}

/** The plate with its figures beside it, and the reading under them. */
export function FittingBench({
  entries,
  story,
  stoma,
  named,
  correcting,
  onCorrect,
  onLeave,
}: FittingBenchProps) {
  const { clinic, today, protocol, may } = useBench();
  const zone = clinic.details.timeZone;
  const { personId } = story;
  const { stomaId } = stoma;
  const draftKey = `fitting:${stomaId}${correcting ? `:${correcting.entryId}` : ""}`;
  const fitting = useFitting(draftKey, () => startOf(stoma, correcting, protocol.guideStepMm));
  const { state, dispatch } = fitting;
  const tool = usePlateTool(dispatch);
  const [dragging, setDragging] = useState(false);
  const [marking, setMarking] = useState(false);
  const [saved, setSaved] = useState("");

  const looking = !may.write || (named !== null && correcting === null);
  const shown = correcting ?? named ?? stoma.readings.at(-1) ?? null;
  const plate = useOnPlate({ entries, stoma, personId, fitting, shown, correcting, looking });
  const system = systemOn(stoma, today)?.entry.body.system ?? null;
  const usual = usualClearance(stoma.details.type, protocol);
  const clearanceMm = clearanceOf(state.clearanceMm, usual.mm);
  const figures = useFigures({ plate, stoma, clearanceMm, system, protocol, steady: dragging });
  const photo = usePhotoWay({ state, dispatch, tool, protocol, personId, stomaId });
  const saving = useSaveReading({
    first: photo.keep,
    fitting,
    body: plate.body,
    personId,
    stomaId,
    zone,
    correcting: correcting && { id: correcting.source.entry.id, at: correcting.source.entry.at },
  });

  return (
    <>
      <FittingHead {...{ story, stoma, plate, shown, looking, correcting, onCorrect, onLeave }} />
      <div className="fit-bench">
        <PlatePart
          {...{ plate, figures, state, dispatch, tool, dragging, protocol }}
          before={shown}
          onDragging={setDragging}
        />
        <div className="fit-side">
          <FiguresPart {...{ plate, figures, today }} />
          <ReadingPart
            {...{ state, dispatch, tool, plate, photo, zone, usual, saving, correcting, looking, onLeave }}
            mayKeep={story.consents.keep?.entry.body.given ?? null}
            tolerancePercent={protocol.barTolerancePercent}
            onSkin={() => setMarking(true)}
            onGiveUp={fitting.forget}
          />
        </div>
        {!correcting && may.write && (
          <ActionsPart
            {...{ plate, figures, stoma, personId, zone, clearanceMm, system, protocol }}
            paper={clinic.details.paper}
            save={saving.save}
          />
        )}
      </div>
      <p role="status" className="small">
        {saved}
      </p>
      {marking && photo.reader.read && plate.body && (
        <SkinDialog
          read={photo.reader.read}
          about={plate.body.shape}
          {...{ personId, stoma }}
          onClose={() => setMarking(false)}
          onSaved={(words) => {
            setMarking(false);
            setSaved(words);
          }}
        />
      )}
      {tool.file && <ImportDialog file={tool.file} onTake={tool.takeTraced} onClose={tool.leaveFile} />}
    </>
  );
}
