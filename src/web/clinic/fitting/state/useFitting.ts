import { type Dispatch, useEffect, useReducer, useRef } from "react";
import type { At } from "../../../../record/entry/index.ts";
import { useDraft } from "../../../shared/draft/index.ts";
import { type FittingAction, type FittingState, fittingReducer } from "./fittingState.ts";

/** What is kept through a failed save, a reload and leaving the page: all but the steps to undo. */
interface KeptFitting {
  form: Omit<FittingState, "past" | "future" | "gesture">;
  /** When saving was first tried: a retry must say the same moment, or it would be another entry. */
  triedAt: At | null;
}

export interface Fitting {
  state: FittingState;
  dispatch: Dispatch<FittingAction>;
  /** The id that the reading will have, whatever happens on the way. */
  id: string;
  /** Something was written that is not saved yet. */
  touched: boolean;
  /** The moment of a reading that is "now": fixed by the first try to save it. */
  momentOf: (now: () => At) => At;
  forget: () => void;
}

/** A reading being written, kept under a key of its own. */
export function useFitting(key: string, start: () => FittingState): Fitting {
  const kept = useDraft<KeptFitting>(key, () => ({ form: formOf(start()), triedAt: null }));
  const [state, dispatch] = useReducer(fittingReducer, kept.value.form, (form) => resumed(form, start()));
  const saved = useRef(state);
  const { set } = kept;
  useEffect(() => {
    const dragging = state.gesture?.startsWith("drag.");
    if (dragging || isSame(state, saved.current)) return;
    saved.current = state;
    set((now) => ({ ...now, form: formOf(state) }));
  }, [state, set]);
  return {
    state,
    dispatch,
    id: kept.id,
    touched: kept.touched,
    momentOf(now) {
      const at = kept.value.triedAt ?? now();
      if (!kept.value.triedAt) set((before) => ({ ...before, triedAt: at }));
      return at;
    },
    forget() {
      // How it is measured, the handles and the gap asked for are the nurse's habits, not part of the reading.
      const { shape, ...empty } = start();
      const { handleCount, clearanceMm } = state;
      const fresh = { ...empty, shape: { ...shape, way: state.shape.way }, handleCount, clearanceMm };
      saved.current = fresh;
      dispatch({ type: "restart", state: fresh });
      kept.forget();
    },
  };
}

function formOf({ shape, details, handleCount, clearanceMm }: FittingState): KeptFitting["form"] {
  return { shape, details, handleCount, clearanceMm };
}

/** Fields that a draft of an earlier program does not know are blank. */
function resumed(form: KeptFitting["form"], fresh: FittingState): FittingState {
  return {
    ...fresh,
    ...form,
    shape: { ...fresh.shape, ...form.shape },
    details: { ...fresh.details, ...form.details },
  };
}

function isSame(a: FittingState, b: FittingState): boolean {
  return (
    a.shape === b.shape &&
    a.details === b.details &&
    a.handleCount === b.handleCount &&
    a.clearanceMm === b.clearanceMm
  );
}
