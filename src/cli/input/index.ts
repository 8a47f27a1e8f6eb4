export { readJson } from "./json.ts";
export { linesOf } from "./lines.ts";
export { bytesOf, type Source, streamOf, textOf } from "./source.ts";
