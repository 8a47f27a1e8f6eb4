import { InputError } from "../../domain/fault.ts";
import { type Content, contentOf, contentWords } from "./content.ts";
import { type ImageSize, imageSize, type ReadableImage } from "./imageSize.ts";

export { type Content, contentOf } from "./content.ts";
export type { ImageSize } from "./imageSize.ts";

/** What is decoded at all. No source: a phone's largest photograph, with room, and what a small machine can hold. */
export const imageLimits = { bytes: 25 * 1024 * 1024, pixels: 40_000_000 } as const;

export interface AcceptedImage extends ImageSize {
  type: `image/${ReadableImage}`;
}

const readable: readonly Content[] = ["jpeg", "png", "webp"] satisfies ReadableImage[];

/**
 * Whether a file is a picture that may be decoded, by its content and its header alone: a few bytes can promise more
 * pixels than the machine has room for.
 * @throws {InputError}
 */
export function acceptImage(file: Uint8Array, path = "file"): AcceptedImage {
  if (file.length > imageLimits.bytes) {
    throw fault(path, "is too large", `${file.length} bytes`, `at most ${imageLimits.bytes} bytes`);
  }
  const content = contentOf(file);
  if (!readable.includes(content)) {
    throw fault(path, `is ${contentWords[content]}`, content, "a photograph as JPEG, PNG or WebP");
  }
  const kind = content as ReadableImage;
  const size = imageSize(file, kind);
  if (!size) throw fault(path, "has a header that cannot be read", content, "a whole, still picture");
  const { widthPx, heightPx } = size;
  if (widthPx * heightPx > imageLimits.pixels) {
    const got = `${widthPx} × ${heightPx} pixels`;
    throw fault(path, "has too many pixels", got, `at most ${imageLimits.pixels / 1e6} million`);
  }
  return { type: `image/${kind}`, ...size };
}

/** A workbook is let through: the log says itself how to save it as CSV. So is what may be text of a rare kind. */
const asLog: readonly Content[] = ["text", "spreadsheet", "unknown"];

/**
 * Refuses as a log of changes what is plainly something else.
 * @throws {InputError}
 */
export function refuseAsLog(file: Uint8Array, path = "file"): void {
  const content = contentOf(file);
  if (!asLog.includes(content)) {
    throw fault(path, `is ${contentWords[content]}`, content, "a log of changes as CSV");
  }
}

function fault(path: string, problem: string, got: string, expected: string): InputError {
  return new InputError([{ path, problem, got, expected }]);
}
