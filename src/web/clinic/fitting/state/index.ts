export {
  clearanceOf,
  clearanceRangeMm,
  heightWrong,
  measuredBody,
  shapeToCorrect,
  stepWrong,
  usualClearance,
  type Wrong,
  wayOf,
} from "./entries.ts";
export { type FittingAction, type FittingState, startState } from "./fittingState.ts";
export { newScan, type Scan, toScale } from "./scan.ts";
export {
  emptyShape,
  type GuideFields,
  lineBeforeSmoothing,
  newTraced,
  outlineOfForm,
  type ShapeForm,
  sizeWrong,
  type Traced,
  uneditedOutline,
  type Way,
} from "./shapeForm.ts";
export { storedOutline } from "./stored.ts";
export { type Fitting, useFitting } from "./useFitting.ts";
