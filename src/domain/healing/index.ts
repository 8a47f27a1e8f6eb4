export { cutAheadUntilDay } from "./advice.ts";
export { type Curve, sizeOnDay } from "./curve.ts";
export { healingCurve } from "./healingCurve.ts";
export { healingOfOval, type OvalHealingInput, type OvalHealingResult } from "./oval.ts";
export { type HealingReading, type ReadingMethod, readingMethods } from "./readings.ts";
export type { FitsUntil, ForecastDay, HealingDates, HealingInput, HealingResult } from "./result.ts";
