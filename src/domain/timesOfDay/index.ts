export { type TimesOfDay, timesOfDay } from "./timesOfDay.ts";
