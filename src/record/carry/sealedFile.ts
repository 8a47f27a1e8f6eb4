import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { pipeline, Readable } from "node:stream";
import type { ReadableStream as NodeWebStream } from "node:stream/web";
import { createGunzip, createGzip } from "node:zlib";
import { KeyFault, sealStream, unsealStream } from "../keys/index.ts";
import { writeWholeFile } from "../wholeFile/index.ts";
import { CarryFault, writingFault } from "./fault.ts";
import { linesFrom } from "./lines.ts";

/** Lines of JSON shrink to a tenth at the lowest level as well; the rest would cost more time than it saves room. */
const gzipLevel = 3;

/**
 * Writes lines as a file that is packed (gzip) and sealed (age) on its way: no part of it ever lies on disk open.
 * @throws {CarryFault} `cannotWrite`
 */
export async function writeSealed(
  file: string,
  lines: AsyncIterable<string>,
  { recipients, signal }: { recipients: readonly string[]; signal?: AbortSignal },
): Promise<void> {
  const packed = pipeline(Readable.from(lines), createGzip({ level: gzipLevel }), () => {});
  const sealed = await sealStream(recipients, toWeb(packed));
  const bytes = Readable.fromWeb(sealed as NodeWebStream<Uint8Array>);
  await writeWholeFile(file, bytes, { signal }).catch((error) => {
    throw writingFault(error, file);
  });
}

/**
 * The lines of a sealed file.
 * @throws {CarryFault} `noBackup`, `wrongKey`, `damaged` or `notABackup`; damage far into a file only there
 */
export async function* readSealed(file: string, identities: readonly string[]): AsyncGenerator<string> {
  const found = await stat(file).catch(() => null);
  if (!found?.isFile()) throw new CarryFault("noBackup", `There is no backup ${file}.`);
  try {
    const opened = await unsealStream(identities, toWeb(createReadStream(file)));
    const bytes = Readable.fromWeb(opened as NodeWebStream<Uint8Array>);
    yield* linesFrom(pipeline(bytes, createGunzip(), () => {}));
  } catch (error) {
    throw faultOf(error, file);
  }
}

function toWeb(stream: Readable): ReadableStream<Uint8Array> {
  return Readable.toWeb(stream) as ReadableStream<Uint8Array>;
}

function faultOf(error: unknown, file: string): unknown {
  if (error instanceof CarryFault) return new CarryFault(error.code, `${file}: ${error.message}`);
  if (error instanceof KeyFault && error.code === "wrongKey") {
    return new CarryFault(
      "wrongKey",
      `The backup ${file} is sealed for another key than those at hand. Name the key file it was made with (--key-file), or give the recovery key (--recovery-key).`,
    );
  }
  if (error instanceof Error && (error.name === "AbortError" || "syscall" in error)) return error;
  return new CarryFault(
    "damaged",
    `The backup ${file} is damaged: it was changed, or cut short, after it was made. Take another one.`,
  );
}
