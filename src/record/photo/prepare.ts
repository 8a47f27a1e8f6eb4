import sharp, { type Sharp } from "sharp";
import { refuse } from "../../domain/fault.ts";

export interface Picture {
  /** JPEG, sRGB, without any metadata. */
  bytes: Uint8Array;
  widthPx: number;
  heightPx: number;
}

/** A photograph as it is kept, and the small one for lists. */
export interface PreparedPhoto extends Picture {
  thumbnail: Picture;
}

/** Limits of what a camera may send; none of them says anything about a person. */
export const photoLimits = {
  /** More than a phone's photograph of today; four bytes a pixel while it is decoded. */
  megapixels: 40,
  megabytes: 30,
  /** Shorter sides hold nothing to measure by. */
  shortestPx: 64,
} as const;

const keptLongestPx = 1600;
const thumbnailLongestPx = 240;
const quality = 88;

/**
 * Makes of an uploaded photograph pixels and nothing else: turned the way it was held, at most 1600 px long, in sRGB;
 * places, times, device, previews and profiles are gone. The size is read from the header before anything is decoded.
 * @throws {InputError} for anything but a JPEG, PNG or WebP photograph within {@link photoLimits}
 */
export async function preparePhoto(bytes: Uint8Array): Promise<PreparedPhoto> {
  refuseByFirstBytes(bytes);
  await refuseBySize(bytes);
  try {
    const kept = await jpeg(decoder(bytes).autoOrient(), keptLongestPx);
    const thumbnail = await jpeg(sharp(kept.bytes), thumbnailLongestPx);
    return { ...kept, thumbnail };
  } catch {
    return refuse("photo", "cannot be read to its end", undefined, "a whole photograph");
  }
}

async function jpeg(image: Sharp, longestPx: number): Promise<Picture> {
  const { data, info } = await image
    .resize({ width: longestPx, height: longestPx, fit: "inside", withoutEnlargement: true })
    .flatten({ background: "#ffffff" })
    .toColourspace("srgb")
    .jpeg({ quality, chromaSubsampling: "4:4:4" })
    .toBuffer({ resolveWithObject: true });
  return { bytes: new Uint8Array(data), widthPx: info.width, heightPx: info.height };
}

function decoder(bytes: Uint8Array): Sharp {
  return sharp(bytes, { limitInputPixels: photoLimits.megapixels * 1e6, failOn: "error", animated: false });
}

/** What a file is called says nothing: a page or a drawing that runs code must never reach the decoder. */
function refuseByFirstBytes(bytes: Uint8Array): void {
  if (bytes.length > photoLimits.megabytes * 1e6) {
    refuse("photo", "is too large", inMegabytes(bytes.length), `at most ${photoLimits.megabytes} MB`);
  }
  const first = (...expected: number[]) => expected.every((byte, at) => bytes[at] === byte);
  const isJpeg = first(0xff, 0xd8, 0xff);
  const isPng = first(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
  const isWebp = first(0x52, 0x49, 0x46, 0x46) && String.fromCharCode(...bytes.subarray(8, 12)) === "WEBP";
  if (!isJpeg && !isPng && !isWebp) {
    refuse("photo", "is not a photograph that can be read", undefined, "a JPEG, PNG or WebP file");
  }
}

async function refuseBySize(bytes: Uint8Array): Promise<void> {
  // The limit stands in the decoder as well; asked without it, the header says how far over the photograph is.
  const { width, height } = await sharp(bytes, { limitInputPixels: false })
    .metadata()
    .catch(() => refuse("photo", "has no readable header", undefined, "a whole photograph"));
  const size = `${width} x ${height} px`;
  if (width * height > photoLimits.megapixels * 1e6) {
    refuse("photo", "has too many pixels", size, `at most ${photoLimits.megapixels} million pixels`);
  }
  if (Math.min(width, height) < photoLimits.shortestPx) {
    refuse("photo", "is too small", size, `at least ${photoLimits.shortestPx} px each way`);
  }
}

function inMegabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}
