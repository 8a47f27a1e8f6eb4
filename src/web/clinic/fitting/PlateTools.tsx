import { Button } from "../../shared/ui/index.ts";
import { handleCounts } from "./handles/index.ts";
import { viewBeside } from "./plate/index.ts";
import type { FittingAction, FittingState } from "./state/index.ts";

const usualViewMm = 20;

/** Steps back and forward, how many handles, and how close the plate looks. */
export function PlateTools({
  state,
  dispatch,
  writing,
  viewMm,
  onView,
}: {
  state: FittingState;
  dispatch: (action: FittingAction) => void;
  writing: boolean;
  viewMm: number | null;
  onView: (viewMm: number | null) => void;
}) {
  const more = state.handleCount === handleCounts[0] ? handleCounts[1] : handleCounts[0];
  return (
    <div className="fit-tools fit-plate-tools">
      {(writing || state.past.length > 0) && (
        <>
          <Button disabled={state.past.length === 0} onClick={() => dispatch({ type: "undo" })}>
            Undo
          </Button>
          <Button disabled={state.future.length === 0} onClick={() => dispatch({ type: "redo" })}>
            Redo
          </Button>
        </>
      )}
      {writing && (
        <Button onClick={() => dispatch({ type: "handleCount", count: more })}>{more} handles</Button>
      )}
      {state.shape.edited && !state.shape.origin && (
        <Button onClick={() => dispatch({ type: "unedit" })}>Before the handles</Button>
      )}
      <Button aria-label="Look closer" onClick={() => onView(viewBeside(viewMm ?? usualViewMm, -1))}>
        Closer
      </Button>
      <Button aria-label="Look wider" onClick={() => onView(viewBeside(viewMm ?? usualViewMm, 1))}>
        Wider
      </Button>
      {viewMm !== null && <Button onClick={() => onView(null)}>Fit</Button>}
    </div>
  );
}
