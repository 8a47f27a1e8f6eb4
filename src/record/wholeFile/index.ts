import { randomBytes } from "node:crypto";
import { createWriteStream } from "node:fs";
import { link, open, rename, rm } from "node:fs/promises";
import { dirname } from "node:path";
import { pipeline } from "node:stream/promises";

type Chunks = Iterable<string | Uint8Array> | AsyncIterable<string | Uint8Array>;

/**
 * Writes a whole file or none: it takes its name when all of it is on disk, and not before. What the record keeps
 * is about people, so nobody but the writer may read it.
 * @param onlyNew leave a file that is there already alone, and fail with `EEXIST`
 */
export async function writeWholeFile(
  file: string,
  chunks: Chunks,
  { signal, onlyNew = false }: { signal?: AbortSignal; onlyNew?: boolean } = {},
): Promise<void> {
  const part = `${file}.${process.pid}-${randomBytes(3).toString("hex")}.part`;
  try {
    await pipeline(chunks, createWriteStream(part, { mode: 0o600, flags: "wx", flush: true }), { signal });
    signal?.throwIfAborted();
    if (onlyNew) await link(part, file);
    else await rename(part, file);
    await syncFolder(dirname(file));
  } finally {
    await rm(part, { force: true });
  }
}

/** Makes a new name in a folder outlast a power cut; where folders cannot be opened (Windows) there is no need. */
export async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, "r").catch(() => null);
  try {
    await handle?.sync();
  } finally {
    await handle?.close();
  }
}
