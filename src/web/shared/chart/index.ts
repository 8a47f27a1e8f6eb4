export { band, path, stepPath } from "./paths.ts";
export { type Scale, scale, ticks } from "./scale.ts";
export { type Drawing, useDrawing } from "./useDrawing.ts";
