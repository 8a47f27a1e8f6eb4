import { type ReactNode, useEffect, useId, useMemo, useState } from "react";
import type { Outline } from "../../../domain/outline/index.ts";
import type { Protocol } from "../../../domain/protocol/index.ts";
import type { Reading } from "../../../record/story/index.ts";
import { mm } from "../../shared/words/index.ts";
import { WhereBare } from "./figures/index.ts";
import { handlesOf } from "./handles/index.ts";
import { PlateTools } from "./PlateTools.tsx";
import {
  type Comparison,
  DrawLayer,
  Handles,
  Key,
  type KeyLine,
  Plate,
  plateSummary,
  ScanMarks,
  ScanMover,
  ScanPicture,
} from "./plate/index.ts";
import { type FittingAction, type FittingState, lineBeforeSmoothing, type ShapeForm } from "./state/index.ts";
import { recordedSubject } from "./subject.ts";
import type { Figures } from "./useFigures.ts";
import type { OnPlate } from "./useOnPlate.ts";
import type { PlateTool } from "./usePlateTool.ts";
import { RadiiTable } from "./ways/index.ts";

interface PlatePartProps {
  plate: OnPlate;
  figures: Figures;
  /** The reading to compare with while another is written. */
  before: Reading | null;
  state: FittingState;
  dispatch: (action: FittingAction) => void;
  tool: PlateTool;
  dragging: boolean;
  onDragging: (dragging: boolean) => void;
  protocol: Protocol;
}

/** The plate, what its lines are, where the bare skin lies, and the edge as figures. */
export function PlatePart(props: PlatePartProps) {
  const { plate, figures, before, state, dispatch, tool, dragging, onDragging, protocol } = props;
  const { subject, sizes, writing } = plate;
  const id = useId();
  const [viewMm, setViewMm] = useState<number | null>(null);
  useUndoKeys(dispatch);

  const outline = subject?.outline ?? null;
  const handles = useMemo(
    () => (writing && outline ? handlesOf(outline, state.handleCount) : []),
    [writing, outline, state.handleCount],
  );
  const drawing = tool.tool !== "handles";
  const comparisons = useMemo(
    () => (writing ? comparisonsOf(before, state.shape, drawing ? outline : null) : []),
    [writing, before, state.shape, drawing, outline],
  );
  const { inUse, proposed } = figures;
  const bareOf = inUse ?? proposed?.proposed ?? null;
  const move = (hour: number, radiusMm: number, gesture: string) =>
    dispatch({ type: "handle", hour, radiusMm, gesture });
  const { scan } = tool;

  return (
    <section className="fit-left" aria-label="The plate">
      <Plate
        stoma={drawing ? null : outline}
        recorded={!writing}
        comparisons={comparisons}
        inUse={inUse?.outline ?? null}
        proposed={proposed?.proposed?.outline ?? null}
        bare={bareOf && { opening: bareOf.outline, gaps: bareOf.exposed.byClockHour }}
        limitMm={protocol.maxGapMm}
        barrier={proposed?.barrier ?? null}
        viewMm={viewMm ?? (drawing ? drawingViewMm : null)}
        steady={dragging}
        label="Outline of the stoma on a millimetre grid, seen facing the person"
        describedBy={`${id}-summary`}
        under={scan ? (frame) => <ScanPicture frame={frame} scan={scan} /> : undefined}
        over={(frame): ReactNode => {
          if (tool.tool === "draw") return <DrawLayer frame={frame} onDrawn={tool.takeLine} />;
          if (scan && tool.tool === "marks")
            return <ScanMarks frame={frame} scan={scan} onScan={tool.setScan} />;
          if (scan && tool.tool === "move")
            return <ScanMover frame={frame} scan={scan} onScan={tool.setScan} />;
          return (
            <Handles
              frame={frame}
              handles={handles}
              onMove={move}
              onSettled={() => dispatch({ type: "settled" })}
              onDragging={onDragging}
            />
          );
        }}
      />
      <p className="hide" id={`${id}-summary`}>
        {plateSummary({
          size: sizes,
          recorded: !writing,
          inUse,
          proposed: proposed?.proposed ?? null,
          limitMm: protocol.maxGapMm,
        })}
      </p>
      <Key lines={keyLines(props, comparisons, drawing)} />
      <PlateTools state={state} dispatch={dispatch} writing={writing} viewMm={viewMm} onView={setViewMm} />
      {bareOf && (
        <div className="fit-where">
          <WhereBare figures={bareOf} opening={inUse ? "in use" : "proposed"} />
          {proposed?.barrier && (
            <p className="note">
              At least {mm(proposed.barrier.leastLeftMm)} of barrier is left outside the proposed opening,
              centred on a barrier {proposed.barrier.radiusMm * 2} mm across.
            </p>
          )}
        </div>
      )}
      {writing && (
        <>
          <p className="note">
            Drag a handle, or <kbd>Tab</kbd> to one and press the arrow keys: 0.1 mm a press, 1 mm with{" "}
            <kbd>Shift</kbd>. <kbd>Ctrl</kbd> <kbd>Z</kbd> takes a step back.
          </p>
          <RadiiTable handles={handles} onMove={move} />
        </>
      )}
    </section>
  );
}

/** While a line is drawn the plate keeps still, wide enough for most stomas. */
const drawingViewMm = 30;

const comparisonWords: Record<Comparison["kind"], string> = {
  before: "Reading before",
  raw: "Line as drawn",
};

/** What to hold the outline against: the reading before; the line as the hand drew it, or the one drawn anew. */
function comparisonsOf(before: Reading | null, shape: ShapeForm, redrawn: Outline | null): Comparison[] {
  const raw = redrawn ?? lineBeforeSmoothing(shape);
  return [
    ...(before ? [{ kind: "before" as const, outline: recordedSubject(before).outline }] : []),
    ...(raw ? [{ kind: "raw" as const, outline: raw }] : []),
  ];
}

function keyLines(
  { plate, figures, protocol }: PlatePartProps,
  comparisons: readonly Comparison[],
  drawing: boolean,
): { line: KeyLine; words: string }[] {
  const lines: { line: KeyLine; words: string }[] = [];
  const shown = !drawing && plate.subject !== null;
  if (shown) lines.push({ line: "stoma", words: "Stoma, at the skin" });
  for (const { kind } of comparisons) lines.push({ line: kind, words: comparisonWords[kind] });
  if (!shown) return lines;
  if (figures.inUse) lines.push({ line: "inUse", words: "Opening in use" });
  if (figures.proposed?.proposed) lines.push({ line: "proposed", words: "Opening proposed" });
  if (figures.inUse || figures.proposed?.proposed) {
    const now = figures.inUse ? "Skin bare now" : "Skin the proposed opening leaves bare";
    lines.push({
      line: "bare",
      words: `${now}. Figures: widest gap in mm, heavy if over ${protocol.maxGapMm}`,
    });
  }
  return lines;
}

/** Ctrl+Z and Ctrl+Y for the outline; inside a field they belong to what is typed there. */
function useUndoKeys(dispatch: (action: FittingAction) => void): void {
  useEffect(() => {
    const keyDown = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      if (event.target instanceof HTMLElement && event.target.matches("input, textarea, select")) return;
      const key = event.key.toLowerCase();
      const redo = key === "y" || (key === "z" && event.shiftKey);
      if (!redo && key !== "z") return;
      event.preventDefault();
      dispatch({ type: redo ? "redo" : "undo" });
    };
    document.addEventListener("keydown", keyDown);
    return () => document.removeEventListener("keydown", keyDown);
  }, [dispatch]);
}
