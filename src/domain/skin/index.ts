export { type SkinPlace, skinRegion } from "./place.ts";
export { type SkinArea, type SkinAreas, type SkinInput, skinAreas } from "./skin.ts";
