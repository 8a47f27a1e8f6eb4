import { furthestApartMm, placed, type Smoothing, smoothed } from "../../../../record/tracing/index.ts";
import { Button, Check, Choice } from "../../../shared/ui/index.ts";
import { mm } from "../../../shared/words/index.ts";
import type { FittingAction, Traced } from "../state/index.ts";
import { AngleField, quarterOn } from "./AngleField.tsx";
import { FileButton } from "./FileButton.tsx";

/** What the pointer does on the plate. */
export type Tool = "handles" | "draw" | "marks" | "move";

interface TracingPartProps {
  traced: Traced | null;
  /** A scan lies under the grid: it is turned and mirrored itself, before it is traced. */
  scanned: boolean;
  dispatch: (action: FittingAction) => void;
  tool: Tool;
  onTool: (tool: Tool) => void;
  onFile: (file: File) => void;
  onScanFile: (file: File) => void;
  /** What became of the last line or file, as a sentence. */
  said: string | null;
}

/** A line round the base: drawn on the plate, read from a file, or drawn over a scan. */
export function TracingPart(props: TracingPartProps) {
  const { traced, scanned, dispatch, tool, onTool, onFile, onScanFile, said } = props;
  return (
    <>
      <div className="fit-tools">
        <Button aria-pressed={tool === "draw"} onClick={() => onTool(tool === "draw" ? "handles" : "draw")}>
          {tool === "draw" ? "Stop drawing" : traced ? "Draw again" : "Draw on the plate"}
        </Button>
        <FileButton
          label="Read SVG or CSV"
          accept=".svg,.csv,.txt,image/svg+xml,text/csv,text/plain"
          onFile={onFile}
        />
        <FileButton label="Place a scan" accept="image/png,image/jpeg,image/webp" onFile={onScanFile} />
      </div>
      {tool === "draw" && (
        <p className="small" role="status">
          Draw once round the base with finger, pen or mouse. The line closes by itself when you lift.
        </p>
      )}
      {said && (
        <p className="wrong" role="alert">
          {said}
        </p>
      )}
      {traced && tool === "handles" && (
        <>
          <SmoothingPart traced={traced} dispatch={dispatch} />
          {!scanned && <PlacingPart traced={traced} dispatch={dispatch} />}
        </>
      )}
    </>
  );
}

const smoothings: readonly { value: Smoothing; label: string }[] = [
  { value: "none", label: "As drawn" },
  { value: "little", label: "A little" },
  { value: "much", label: "Much" },
];

interface TracedProps {
  traced: Traced;
  dispatch: (action: FittingAction) => void;
}

/** Where the line came from, and how much of the hand's tremor is taken out of it. */
function SmoothingPart({ traced, dispatch }: TracedProps) {
  const { smoothing, source, joinedMm } = traced;
  return (
    <>
      <p className="note">
        {source}.{joinedMm >= 1 && <> Its ends lay {mm(joinedMm)} apart and were joined.</>}
      </p>
      <Choice
        label="Smooth the line"
        value={smoothing}
        onChange={(value) => dispatch({ type: "tracing", change: { smoothing: value } })}
        choices={smoothings}
      />
      {smoothing !== "none" && (
        <p className="note">
          Smoothing moves the line by {mm(movedBy(traced))} at most; the line as drawn stays in view.
        </p>
      )}
    </>
  );
}

/** Which way up the line is seen, and from which side. */
function PlacingPart({ traced: { placing }, dispatch }: TracedProps) {
  const place = (change: Partial<typeof placing>) =>
    dispatch({ type: "tracing", change: { placing: { ...placing, ...change } } });
  return (
    <>
      <div className="fit-fields">
        <AngleField
          label="Turn, clockwise"
          value={placing.turnDeg}
          onChange={(turnDeg) => place({ turnDeg })}
        />
        <div className="fit-turn">
          <Button onClick={() => place({ turnDeg: quarterOn(placing.turnDeg) })}>Turn by 90°</Button>
        </div>
      </div>
      <p className="note">Turn it until the head side is up.</p>
      <Check
        label="Traced from the skin side: left and right change places"
        checked={placing.mirrored}
        onChange={(mirrored) => place({ mirrored })}
      />
    </>
  );
}

function movedBy({ line, smoothing, placing }: Traced): number {
  return furthestApartMm(placed(line, placing), placed(smoothed(line, smoothing), placing));
}
