export {
  type ExposedInput,
  type ExposedSkin,
  exposedSkin,
  type HourSkin,
  type SkinFigures,
} from "./exposed.ts";
