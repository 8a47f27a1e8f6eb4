import { access } from "node:fs/promises";
import sharp from "sharp";
import type { Pixels } from "../../domain/photo/index.ts";
import { Refusal } from "../ending.ts";

/**
 * The pixels of a picture file, turned as the camera says; nothing else of the file is kept.
 * @throws {Refusal} in words where it cannot be read
 */
export async function decodePicture(path: string): Promise<Pixels> {
  await access(path).catch(() => {
    throw new Refusal(`There is no file ${path}, or it may not be read.`);
  });
  try {
    const { data, info } = await sharp(path, { failOn: "error", limitInputPixels: mostPixels })
      .autoOrient()
      .toColourspace("srgb")
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    return { width: info.width, height: info.height, data };
  } catch (error) {
    throw new Refusal(`${path} cannot be read as a picture (${inWords(error)}).`);
  }
}

/** More than any camera of a phone takes; a made-up file must not fill the memory. */
const mostPixels = 120e6;

/** The first line of what the decoder says, without its full stop. */
function inWords(error: unknown): string {
  return String((error as Error).message)
    .split("\n")[0]!
    .replace(/\.$/, "");
}
