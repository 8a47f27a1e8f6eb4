export type { Barrier } from "./barrier.ts";
export { type Opening, type OpeningInput, openingFor } from "./opening.ts";
export { parallelCurve } from "./parallel.ts";
export { type ScissorPath, scissorPathFor } from "./scissors.ts";
