export * from "./dates.ts";
export * from "./durations.ts";
export * from "./faults.ts";
export * from "./kinds.ts";
export * from "./numbers.ts";
