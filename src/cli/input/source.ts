import { createReadStream } from "node:fs";
import { access, constants, stat } from "node:fs/promises";
import type { Readable } from "node:stream";
import { refuse } from "../../domain/fault.ts";
import { Refusal } from "../ending.ts";

/** Where input comes from: a file, or standard input when none is named (or `-` is). */
export type Source = string | undefined;

/** @throws {Refusal} when there is no such file, or it may not be read */
export async function streamOf(source: Source): Promise<Readable> {
  if (source === undefined || source === "-") {
    if (process.stdin.isTTY) console.error("Reading standard input; end it with Ctrl-D, or name a file.");
    return process.stdin;
  }
  const found = await stat(source).catch(() => null);
  if (!found) throw new Refusal(`There is no file ${source}.`);
  if (found.isDirectory()) throw new Refusal(`${source} is a folder, not a file.`);
  await access(source, constants.R_OK).catch(() => {
    throw new Refusal(`The file ${source} may not be read.`);
  });
  return createReadStream(source);
}

export async function bytesOf(source: Source): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of await streamOf(source)) chunks.push(chunk);
  return Buffer.concat(chunks);
}

/** Bytes as text; a byte order mark at the front is left out. @throws {InputError} when they are not UTF-8 */
export function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return refuse("", "is not UTF-8 text", undefined, "text in UTF-8");
  }
}
