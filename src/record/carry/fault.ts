/** A backup, a record or a target that cannot be worked with; the message is a sentence that says what to do. */
export class CarryFault extends Error {
  readonly code: CarryFaultCode;
  constructor(code: CarryFaultCode, message: string) {
    super(message);
    this.name = "CarryFault";
    this.code = code;
  }
}

export type CarryFaultCode =
  | "noBackup"
  | "wrongKey"
  | "notABackup"
  | "damaged"
  | "newerProgram"
  | "olderForm"
  | "recordExists"
  | "recordInUse"
  | "anotherRecord"
  | "notEmpty"
  | "notEqual"
  | "cannotWrite";

/** Why the system would not write, as a sentence; anything else as it was. */
export function writingFault(error: unknown, file: string): unknown {
  const { code, syscall } = (error ?? {}) as { code?: string; syscall?: string };
  const isFull = code === "ENOSPC" || code === "EDQUOT" || code === "SQLITE_FULL";
  if (!isFull && syscall === undefined) return error;
  const isRefused = code === "EACCES" || code === "EPERM" || code === "EROFS";
  const why = isFull
    ? "the disk is full"
    : isRefused
      ? "this may not be written to"
      : `the system says ${code}`;
  return new CarryFault("cannotWrite", `Cannot write ${file}: ${why}. Nothing was changed.`);
}
