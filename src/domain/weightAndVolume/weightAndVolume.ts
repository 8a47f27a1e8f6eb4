/**
 * Weights and volumes as people at home read them, into kilograms and millilitres. Converted where an entry is made and
 * where a figure is shown, and nowhere between.
 */

/** @source International yard and pound agreement of 1959: a pound is 0.45359237 kg exactly */
const kgPerPound = 0.45359237;
const poundsPerStone = 14;

/** @source NIST Handbook 44, appendix C: a US gallon is 231 cubic inches of 25.4 mm, and 128 fluid ounces */
const mlPerUsFluidOunce = (231 * 2.54 ** 3) / 128;
/** @source UK Units of Measurement Regulations 1995: a gallon is 4.54609 L exactly, and 160 fluid ounces */
const mlPerImperialFluidOunce = 4546.09 / 160;

/** The two ounces differ by 4 %: which is meant is the clinic's to say, never guessed. */
export type FluidOunce = "us" | "imperial";

export function poundsToKg(pounds: number): number {
  return pounds * kgPerPound;
}

export function kgToPounds(kg: number): number {
  return kg / kgPerPound;
}

export function stonesToKg(stones: number, pounds = 0): number {
  return poundsToKg(stones * poundsPerStone + pounds);
}

export function fluidOuncesToMl(ounces: number, kind: FluidOunce): number {
  return ounces * mlPer(kind);
}

export function mlToFluidOunces(ml: number, kind: FluidOunce): number {
  return ml / mlPer(kind);
}

function mlPer(kind: FluidOunce): number {
  return kind === "us" ? mlPerUsFluidOunce : mlPerImperialFluidOunce;
}
