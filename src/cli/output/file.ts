import { createWriteStream } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { pipeline } from "node:stream/promises";
import { Failure } from "../ending.ts";

/**
 * Writes a whole file or none: it takes its name only when it is complete. Records are about people, so nobody but
 * the writer may read it.
 * @throws {Failure} when it cannot be written; an `AbortError` when the signal came first
 */
export async function writeFile(
  file: string,
  chunks: AsyncIterable<string | Uint8Array> | Iterable<string | Uint8Array>,
  signal?: AbortSignal,
): Promise<void> {
  const part = `${file}.${process.pid}.part`;
  try {
    await pipeline(chunks, createWriteStream(part, { mode: 0o600 }), { signal });
    await rename(part, file);
  } catch (error) {
    await rm(part, { force: true });
    throw isSystemError(error) ? new Failure(`Cannot write ${file}: ${reasonFor(error)}.`) : error;
  }
}

function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && "syscall" in error;
}

function reasonFor({ code, message }: NodeJS.ErrnoException): string {
  if (code === "ENOENT" || code === "ENOTDIR") return "there is no such folder";
  if (code === "EACCES" || code === "EPERM" || code === "EROFS") return "this may not be written to";
  if (code === "ENOSPC") return "the disk is full";
  return message;
}
