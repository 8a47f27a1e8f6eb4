import sharp from "sharp";
import type { Pixels } from "../../domain/photo/index.ts";
import { Refusal } from "../ending.ts";

/**
 * The pixels of a picture file, turned as the camera says; nothing else of the file is kept.
 * @throws {Refusal} in words where it cannot be read
 */
export async function decodePicture(path: string): Promise<Pixels> {
  try {
    const { data, info } = await sharp(path, { failOn: "error", limitInputPixels: mostPixels })
      .autoOrient()
      .toColourspace("srgb")
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    return { width: info.width, height: info.height, data };
  } catch (error) {
    throw new Refusal(`${path} cannot be read as a picture: ${(error as Error).message}.`);
  }
}

/** More than any camera of a phone takes; a made-up file must not fill the memory. */
const mostPixels = 120e6;
