import { z } from "zod";
import { InputError } from "../domain/fault.ts";
import { passwordFaults } from "../record/accounts/index.ts";

/** A password as it was typed: longer than any that is taken, so that the fault can be named. */
export const typedPassword = z.string().max(2000);

/** @throws {InputError} where it would be guessed */
export function refuseWeak(password: string, own: readonly string[], path = "password"): void {
  const faults = passwordFaults(password, own, path);
  if (faults.length > 0) throw new InputError(faults);
}
