export { type ClinicStory, clinicStory } from "./clinic.ts";
export { clockStartOn } from "./clock.ts";
export { gapBetween } from "./gap.ts";
export { type Healing, type HealingQuestion, healingOf, healingQuestion } from "./healing.ts";
export type { CutOpening } from "./openings.ts";
export type { Reading } from "./readings.ts";
export type { OvertakenSheet } from "./sheets.ts";
export {
  type PersonStory,
  personStory,
  readThroughOf,
  type Standing,
  type StomaStory,
  systemOn,
} from "./story.ts";
export {
  type Change,
  endings,
  plannedDays,
  shortBelowDays,
  type Wear,
  wearInput,
  wornDays,
} from "./wears.ts";
