import { useState } from "react";
import type { Reading } from "../../../record/story/index.ts";
import { Button, Choice, ErrorNote, Form, NumberField, TextField } from "../../shared/ui/index.ts";
import { mm } from "../../shared/words/index.ts";
import { PhotoPart, type PhotoWay } from "./photo/index.ts";
import type { useSaveReading } from "./saving/index.ts";
import {
  clearanceOf,
  clearanceRangeMm,
  type FittingAction,
  type FittingState,
  type usualClearance,
} from "./state/index.ts";
import type { OnPlate } from "./useOnPlate.ts";
import type { PlateTool } from "./usePlateTool.ts";
import { DetailsPart, GuidePart, RulerPart, ScanPart, TracingPart } from "./ways/index.ts";

const ways = [
  { value: "guide", label: "Guide" },
  { value: "tracing", label: "Tracing" },
  { value: "typed", label: "Ruler" },
  { value: "photo", label: "Photograph" },
] as const;

interface ReadingPartProps {
  state: FittingState;
  dispatch: (action: FittingAction) => void;
  tool: PlateTool;
  plate: OnPlate;
  photo: PhotoWay;
  /** The person agreed that photographs are kept; null: nobody has asked. */
  mayKeep: boolean | null;
  tolerancePercent: number;
  onSkin: () => void;
  zone: string;
  usual: ReturnType<typeof usualClearance>;
  saving: ReturnType<typeof useSaveReading>;
  correcting: Reading | null;
  looking: boolean;
  onLeave: () => void;
  /** Throws away what was written. */
  onGiveUp: () => void;
}

/** The reading as it is taken: how, what it said, and what goes with it. */
export function ReadingPart(props: ReadingPartProps) {
  const { state, dispatch, plate, zone, saving, correcting, looking, onLeave, onGiveUp } = props;
  const { reason } = state.details;
  const [tried, setTried] = useState(false);
  const [saved, setSaved] = useState(false);
  if (looking) {
    return (
      <div className="fit-fields">
        <ClearanceField {...props} />
      </div>
    );
  }
  const save = async () => {
    setTried(true);
    setSaved(false);
    if (!plate.body || saving.whenWrong || (correcting && reason.trim() === "")) return;
    await saving.save().then(
      () => {
        setTried(false);
        setSaved(true);
        if (correcting) onLeave();
      },
      () => {},
    );
  };
  const action = (change: FittingAction) => {
    setSaved(false);
    dispatch(change);
  };
  return (
    <Form label="Reading" onSend={save}>
      <div className="fit-reading">
        <h2>{correcting ? "Correct the reading" : "Reading"}</h2>
        <Choice
          label="How it is measured"
          value={state.shape.way}
          onChange={(way) => action({ type: "way", way })}
          choices={ways}
        />
        <WayPart {...props} dispatch={action} tried={tried} />
        <DetailsPart state={state} dispatch={action} zone={zone} whenWrong={saving.whenWrong}>
          <ClearanceField {...props} />
        </DetailsPart>
        {correcting && (
          <TextField
            label="Why is it corrected?"
            rows={2}
            value={reason}
            onChange={(text) => action({ type: "details", fields: { reason: text } })}
            error={
              tried && reason.trim() === ""
                ? "Write why: the old figures stay readable beside it."
                : undefined
            }
          />
        )}
        {tried && (state.shape.way === "tracing" || state.shape.way === "photo") && plate.wrong.shape && (
          <p className="wrong">{plate.wrong.shape}</p>
        )}
        <ErrorNote error={saving.error} />
        {saved && (
          <p className="fit-saved" role="status">
            <b>Saved.</b> The reading stands in the record and lies on the plate.
          </p>
        )}
        <p className="formend">
          <Button type="submit" first={plate.writing} busy={saving.saving}>
            {correcting ? "Save the correction" : "Save the reading"}
          </Button>
          {(correcting || plate.writing) && (
            <Button
              onClick={() => {
                onGiveUp();
                if (correcting) onLeave();
              }}
            >
              {correcting ? "Leave it as it was" : "Throw it away"}
            </Button>
          )}
        </p>
      </div>
    </Form>
  );
}

function WayPart(props: ReadingPartProps & { tried: boolean }) {
  const { state, dispatch, tool, plate, tried } = props;
  const { way, traced, edited } = state.shape;
  return (
    <>
      {way === "guide" && <GuidePart state={state} dispatch={dispatch} tried={tried} />}
      {way === "typed" && <RulerPart state={state} dispatch={dispatch} tried={tried} />}
      {way === "photo" && <PhotoPart {...props} />}
      {way === "tracing" && (
        <>
          <TracingPart
            traced={traced}
            scanned={tool.scan !== null}
            dispatch={dispatch}
            tool={tool.tool}
            onTool={tool.setTool}
            onFile={tool.takeFile}
            onScanFile={tool.takeScan}
            said={tool.said}
          />
          {tool.scan && (
            <ScanPart scan={tool.scan} onScan={tool.setScan} tool={tool.tool} onTool={tool.setTool} />
          )}
        </>
      )}
      {way === "photo" && edited && (
        <p className="note" role="status">
          Adjusted by hand: the record says so.
        </p>
      )}
      {(way === "guide" || way === "typed") && edited && (
        <p className="note" role="status">
          Adjusted by hand: kept as an outline, no longer as a {way === "guide" ? "ring" : "length and width"}
          .
        </p>
      )}
      {plate.writing && plate.sizes && (way === "tracing" || way === "photo" || edited) && (
        <p className="small">
          Length, head to foot <b>{mm(plate.sizes.lengthMm)}</b>; width, side to side{" "}
          <b>{mm(plate.sizes.widthMm)}</b>.
        </p>
      )}
    </>
  );
}

const clearanceWords = {
  clearanceLiquidMm: "liquid output",
  clearanceFormedMm: "formed stool",
} as const;

/** The gap asked for: the protocol's until somebody chooses another. */
function ClearanceField({ state, dispatch, usual }: Pick<ReadingPartProps, "state" | "dispatch" | "usual">) {
  const value = state.clearanceMm ?? String(usual.mm);
  return (
    <NumberField
      label="Gap each side"
      unit="mm"
      value={value}
      onChange={(text) =>
        dispatch({ type: "clearance", clearanceMm: text === String(usual.mm) ? null : text })
      }
      hint={`Protocol, ${clearanceWords[usual.key]}: ${usual.mm} mm`}
      error={clearanceWrong(value)}
    />
  );
}

function clearanceWrong(text: string): string | undefined {
  return clearanceOf(text, 0) === null ? `A gap lies between 0 and ${clearanceRangeMm.most} mm.` : undefined;
}
