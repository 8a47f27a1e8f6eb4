import type { postures } from "../../../../record/entry/index.ts";
import type { WhenForm } from "../../kindForms/index.ts";
import { type HandleCount, withHandleAt } from "../handles/index.ts";
import {
  emptyShape,
  type GuideFields,
  outlineOfForm,
  type PhotoRead,
  type RulerFields,
  type ShapeForm,
  type Traced,
  type Way,
} from "./shapeForm.ts";

/** What is written down beside the shape. Figures stay as typed. */
export interface Details {
  heightMm: string;
  posture: (typeof postures)[number] | "";
  note: string;
  /** Why a reading of the record is corrected. */
  reason: string;
  /** Null: at the moment of saving. */
  when: WhenForm | null;
}

/** A reading being written. */
export interface FittingState {
  shape: ShapeForm;
  details: Details;
  handleCount: HandleCount;
  /** The gap each side, as typed; null: the protocol's for this kind of stoma. */
  clearanceMm: string | null;
  /** Shapes to go back to, oldest first, and forward to, nearest first. */
  past: ShapeForm[];
  future: ShapeForm[];
  /** What the last step changed: steps of one gesture, or typing in one field, are undone as one. */
  gesture: string | null;
}

export type FittingAction =
  | { type: "way"; way: Way }
  | { type: "guide"; fields: Partial<GuideFields> }
  | { type: "ruler"; fields: Partial<RulerFields> }
  | { type: "traced"; traced: Traced | null }
  | { type: "photo"; photo: PhotoRead | null }
  | { type: "keepPhoto"; photoId: string | null }
  | { type: "tracing"; change: Partial<Pick<Traced, "smoothing" | "placing">> }
  | { type: "handle"; hour: number; radiusMm: number; gesture: string }
  | { type: "settled" }
  | { type: "unedit" }
  | { type: "details"; fields: Partial<Details> }
  | { type: "handleCount"; count: HandleCount }
  | { type: "clearance"; clearanceMm: string | null }
  | { type: "undo" }
  | { type: "redo" }
  | { type: "restart"; state: FittingState };

/** Handles were not moved yet, and no outline of the record is shown. */
const laidAnew = { edited: null, origin: null } as const;

/** Steps that can be undone. */
const deepest = 50;

export function startState(way: Way, stepMm: number): FittingState {
  return {
    shape: emptyShape(way, stepMm),
    details: { heightMm: "", posture: "", note: "", reason: "", when: null },
    handleCount: 12,
    clearanceMm: null,
    past: [],
    future: [],
    gesture: null,
  };
}

export function fittingReducer(state: FittingState, action: FittingAction): FittingState {
  const { shape } = state;
  switch (action.type) {
    case "way":
      return step(state, { ...shape, way: action.way, ...laidAnew });
    case "guide": {
      const gesture = `guide.${Object.keys(action.fields)}`;
      return step(state, { ...shape, guide: { ...shape.guide, ...action.fields }, ...laidAnew }, gesture);
    }
    case "ruler": {
      const gesture = `ruler.${Object.keys(action.fields)}`;
      return step(state, { ...shape, ruler: { ...shape.ruler, ...action.fields }, ...laidAnew }, gesture);
    }
    case "traced":
      return step(state, { ...shape, way: "tracing", traced: action.traced, ...laidAnew });
    case "photo":
      return step(state, { ...shape, way: "photo", photo: action.photo, ...laidAnew });
    case "keepPhoto":
      if (!shape.photo) return state;
      return { ...state, shape: { ...shape, photo: { ...shape.photo, photoId: action.photoId } } };
    case "tracing": {
      if (!shape.traced) return state;
      const gesture = `tracing.${Object.keys(action.change)}`;
      return step(state, { ...shape, traced: { ...shape.traced, ...action.change }, ...laidAnew }, gesture);
    }
    case "handle":
      return moveHandle(state, action);
    case "settled":
      return { ...state, gesture: null };
    case "unedit":
      return shape.edited ? step(state, { ...shape, edited: null }) : state;
    case "details":
      return { ...state, details: { ...state.details, ...action.fields } };
    case "handleCount":
      return { ...state, handleCount: action.count };
    case "clearance":
      return { ...state, clearanceMm: action.clearanceMm };
    case "undo":
      return undo(state);
    case "redo":
      return redo(state);
    case "restart":
      return action.state;
  }
}

/** A new shape; the one before can be gone back to, unless the same gesture made that one too. */
function step(state: FittingState, shape: ShapeForm, gesture: string | null = null): FittingState {
  const goesOn = gesture !== null && gesture === state.gesture;
  const past = goesOn ? state.past : [...state.past, state.shape].slice(-deepest);
  return { ...state, shape, past, future: [], gesture };
}

function moveHandle(
  state: FittingState,
  { hour, radiusMm, gesture }: { hour: number; radiusMm: number; gesture: string },
): FittingState {
  const goesOn = gesture === state.gesture;
  // A drag always starts from the outline it took hold of, so that going back and forth leaves no trace.
  const held = goesOn ? state.past.at(-1)! : state.shape;
  const { outline } = outlineOfForm(held);
  if (!outline) return state;
  const edited = withHandleAt(outline, hour, radiusMm, state.handleCount);
  return edited ? step(state, { ...state.shape, edited }, gesture) : state;
}

function undo(state: FittingState): FittingState {
  const shape = state.past.at(-1);
  if (!shape) return state;
  return {
    ...state,
    shape,
    past: state.past.slice(0, -1),
    future: [state.shape, ...state.future],
    gesture: null,
  };
}

function redo(state: FittingState): FittingState {
  const [shape, ...future] = state.future;
  if (!shape) return state;
  return { ...state, shape, past: [...state.past, state.shape], future, gesture: null };
}
