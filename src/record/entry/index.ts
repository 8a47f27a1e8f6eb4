export { addDays, calendarDaysBetween, type PlainDate } from "../../domain/calendar.ts";
export * from "./at.ts";
export { clockAheadMs, contradictions, earliest, type Known } from "./contradictions.ts";
export {
  type Author,
  type Checked,
  checkEntry,
  type Draft,
  type Entry,
  type StoredEntry,
  upcast,
} from "./entry.ts";
export { type ChangedPart, type ChangeReason, changedParts, changeReasons } from "./kinds/changed.ts";
export { type Happening, happenings } from "./kinds/event.ts";
export { type Closure, closures, type PouchingSystem } from "./kinds/fitted.ts";
export { type BodyOf, type Kind, kindNames, kinds } from "./kinds/index.ts";
export { postures } from "./kinds/measured.ts";
export { type PhotoPurpose, photoPurposes } from "./kinds/photoPurposes.ts";
export type { RecordedShape } from "./kinds/shape.ts";
export { type MarkSign, markSigns } from "./kinds/sited.ts";
export { type SkinSign, skinSigns } from "./kinds/skinSigns.ts";
export { type Construction, constructions, type StomaType, stomaTypes } from "./kinds/stoma.ts";
export { type Doubt, doubtsAboutMeasurement, lowHeightMm } from "./plausibility.ts";
