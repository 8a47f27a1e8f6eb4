export * from "./handles.ts";
export { hourWords } from "./hourWords.ts";
