export { protocolWords } from "./protocolWords.ts";
export { ReasonLine } from "./ReasonLine.tsx";
