export { interruptible } from "./interrupt.ts";
export { onOneLine } from "./oneLine.ts";
export { quietWhenReaderLeaves, writeOut } from "./output.ts";
export { showProgress } from "./progress.ts";
