import { type Fault, faultSentence, InputError } from "../domain/fault.ts";
import { onOneLine } from "./terminal/index.ts";

/** Exit statuses: what went well, what failed, what was wrong with the request, what was interrupted. */
export const statuses = { ok: 0, failed: 1, wrongInput: 2, interrupted: 130 } as const;

/** The request cannot be met as it was made: a wrong option, a file that is not there. Status 2. */
export class Refusal extends Error {}

/** The request was right and could not be met. Status 1. */
export class Failure extends Error {}

/** Everything was said already; only the status is left. */
export class Ended extends Error {
  readonly status: number;
  constructor(status: number) {
    super();
    this.status = status;
  }
}

/** A fault as one line of standard error, whatever it was made from. */
export function faultLine(fault: Fault): string {
  return onOneLine(faultSentence(fault));
}

/** Faults of keys and backups: their messages are sentences. Told by name, so that no command loads what it does not use. */
const spokenFaults = new Set(["KeyFault", "CarryFault", "DatabaseFault"]);

/** Says on standard error why a command ended, and gives its exit status. */
export function statusAfter(error: unknown): number {
  if (error instanceof Ended) return error.status;
  if (error instanceof InputError) {
    for (const fault of error.faults) console.error(faultLine(fault));
    return statuses.wrongInput;
  }
  if (error instanceof Refusal) {
    console.error(error.message);
    return statuses.wrongInput;
  }
  if (error instanceof Failure || (error instanceof Error && spokenFaults.has(error.name))) {
    console.error(error.message);
    return statuses.failed;
  }
  if (error instanceof Error && error.name === "AbortError") {
    console.error("Interrupted.");
    return statuses.interrupted;
  }
  console.error(error);
  return statuses.failed;
}
