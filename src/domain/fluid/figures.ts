import type { Protocol } from "../protocol/index.ts";
import type { FluidDay, FluidInput } from "./fluid.ts";

type StomaType = FluidInput["stomaType"];

/** Output that is stool, mL; null for a urostomy, and where it is missing. */
export function outputMl({ stomaMl }: FluidDay, stomaType: StomaType): number | null {
  return stomaType === "urostomy" ? null : (stomaMl ?? null);
}

/** Urine, mL; what comes out of a urostomy is urine. */
export function urineMl(day: FluidDay, stomaType: StomaType): number | null {
  return day.urineMl ?? (stomaType === "urostomy" ? day.stomaMl : undefined) ?? null;
}

export function isWhole({ hoursCovered }: FluidDay, { fullDayHours }: Protocol): boolean {
  return hoursCovered >= fullDayHours;
}

/** Only an ileostomy's output has a sodium that is known well enough. */
export function sodiumLossMmol(day: FluidDay, stomaType: StomaType, protocol: Protocol): number | null {
  if (stomaType !== "ileostomy" || day.stomaMl === undefined) return null;
  return (day.stomaMl / 1000) * protocol.effluentSodiumMmolPerL;
}

export function balanceMl(day: FluidDay, stomaType: StomaType, protocol: Protocol): number | null {
  const urine = urineMl(day, stomaType);
  const output = stomaType === "urostomy" ? 0 : outputMl(day, stomaType);
  if (!isWhole(day, protocol) || day.drinksMl === undefined || urine === null || output === null) return null;
  return day.drinksMl - output - urine;
}

export function urineByWeightMl({ weightKg }: FluidDay, protocol: Protocol): number | null {
  return weightKg === undefined ? null : protocol.urineMlPerKgHour * weightKg * 24;
}
