export interface ImageSize {
  widthPx: number;
  heightPx: number;
}

/** Kinds of pictures whose header is read. */
export type ReadableImage = "jpeg" | "png" | "webp";

/**
 * The size that a picture's header promises, without decoding any of it; null where the header is broken, so that the
 * promise cannot be held against a limit. Where a file promises twice, the larger promise counts.
 */
export function imageSize(file: Uint8Array, kind: ReadableImage): ImageSize | null {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  try {
    const size = { jpeg: jpegSize, png: pngSize, webp: webpSize }[kind](view);
    return size && size.widthPx > 0 && size.heightPx > 0 ? size : null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** @source PNG (W3C, third edition) 11.2.1: IHDR is the first chunk, width and height its first two numbers; from memory */
function pngSize(view: DataView): ImageSize | null {
  const ihdr = 0x49484452;
  if (view.getUint32(8) !== 13 || view.getUint32(12) !== ihdr) return null;
  return { widthPx: view.getUint32(16), heightPx: view.getUint32(20) };
}

/** Frame headers of JPEG; C4, C8 and CC in the same row are tables. */
const isFrame = (marker: number) =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
const startOfScan = 0xda;
const standsAlone = (marker: number) => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);

/** @source ITU-T T.81 annex B: segments of marker, length and content; the frame header gives lines, then samples; from memory */
function jpegSize(view: DataView): ImageSize | null {
  let size: ImageSize | null = null;
  let at = 2;
  for (;;) {
    if (view.getUint8(at) !== 0xff) return null;
    while (view.getUint8(at) === 0xff) at += 1;
    const marker = view.getUint8(at);
    at += 1;
    if (standsAlone(marker)) continue;
    if (marker === startOfScan) return size;
    const length = view.getUint16(at);
    if (length < 2) return null;
    if (isFrame(marker)) {
      size = larger(size, { heightPx: view.getUint16(at + 3), widthPx: view.getUint16(at + 5) });
    }
    at += length;
  }
}

/** @source RFC 9649: the canvas of VP8X, and the frame of VP8 or VP8L; from memory */
function webpSize(view: DataView): ImageSize | null {
  let size: ImageSize | null = null;
  for (let at = 12; at + 8 <= view.byteLength; ) {
    const name = view.getUint32(at);
    const length = view.getUint32(at + 4, true);
    const body = at + 8;
    if (name === chunk("VP8X")) {
      // Films would be decoded frame by frame: a photograph is one picture.
      const isAnimated = (view.getUint8(body) & 0x02) !== 0;
      if (isAnimated) return null;
      size = larger(size, { widthPx: uint24(view, body + 4) + 1, heightPx: uint24(view, body + 7) + 1 });
    } else if (name === chunk("VP8 ")) {
      const widthPx = view.getUint16(body + 6, true) & 0x3fff;
      return larger(size, { widthPx, heightPx: view.getUint16(body + 8, true) & 0x3fff });
    } else if (name === chunk("VP8L")) {
      const bits = view.getUint32(body + 1, true);
      return larger(size, { widthPx: (bits & 0x3fff) + 1, heightPx: ((bits >>> 14) & 0x3fff) + 1 });
    }
    at = body + length + (length % 2);
  }
  return null;
}

function chunk(name: string): number {
  return [...name].reduce((number, letter) => number * 256 + letter.charCodeAt(0), 0);
}

function uint24(view: DataView, at: number): number {
  return view.getUint8(at) | (view.getUint8(at + 1) << 8) | (view.getUint8(at + 2) << 16);
}

function larger(a: ImageSize | null, b: ImageSize): ImageSize {
  if (!a) return b;
  return { widthPx: Math.max(a.widthPx, b.widthPx), heightPx: Math.max(a.heightPx, b.heightPx) };
}
