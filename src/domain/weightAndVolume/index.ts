export {
  type FluidOunce,
  fluidOuncesToMl,
  kgToPounds,
  mlToFluidOunces,
  poundsToKg,
  stonesToKg,
} from "./weightAndVolume.ts";
