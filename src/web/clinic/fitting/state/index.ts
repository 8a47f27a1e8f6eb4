export {
  clearanceOf,
  clearanceRangeMm,
  heightWrong,
  measuredBody,
  shapeToCorrect,
  stepWrong,
  usualClearance,
  type Wrong,
} from "./entries.ts";
export { type FittingAction, type FittingState, startState } from "./fittingState.ts";
export { newScan, type Scan, toScale } from "./scan.ts";
export {
  emptyShape,
  type GuideFields,
  lineBeforeSmoothing,
  newTraced,
  outlineOfForm,
  type PhotoRead,
  type ShapeForm,
  sizeWrong,
  type Traced,
  uneditedOutline,
  type Way,
} from "./shapeForm.ts";
export { storedOutline } from "./stored.ts";
export { type Fitting, useFitting } from "./useFitting.ts";
