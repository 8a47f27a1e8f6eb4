import { deflateSync } from "node:zlib";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { cameraPhoto } from "../../../test/record/kept.ts";
import { photoLimits, preparePhoto } from "./index.ts";

const place = "51 deg 30' 26\" N";
const xmp =
  '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">' +
  '<rdf:Description xmlns:dc="http://purl.org/dc/elements/1.1/" dc:creator="Camera of Edda Voss"/></rdf:RDF></x:xmpmeta>';

/** A photograph laden with what cameras and editors put into one, and what of it must not be found again. */
async function ladenPhoto(): Promise<Buffer> {
  const exif = {
    IFD0: { Make: "Invented cameras", Copyright: "Edda Voss", DateTime: "2026:11:25 10:00:00" },
    IFD3: {
      GPSLatitudeRef: "N",
      GPSLatitude: "51/1 30/1 26/1",
      GPSLongitudeRef: "W",
      GPSLongitude: "0/1 7/1 39/1",
    },
  };
  const photo = await sharp(await cameraPhoto(600, 400))
    .withExif(exif)
    .withXmp(xmp)
    .withIccProfile("p3")
    .jpeg()
    .toBuffer();
  const preview = await cameraPhoto(160, 120);
  return withSegments(photo, [
    // EXIF of an editor's own, with a preview that shows the picture before it was cut to size
    segment(0xe1, Buffer.concat([Buffer.from("Exif\0\0preview"), preview])),
    segment(0xed, Buffer.from(`Photoshop 3.0\x008BIM ${place}`)),
    segment(0xfe, Buffer.from(`comment: ${place}`)),
  ]);
}

function segment(marker: number, content: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(content.length + 2, 2);
  return Buffer.concat([head, content]);
}

/** Puts segments after the first two bytes of a JPEG, and some bytes after its end. */
function withSegments(jpeg: Buffer, segments: Buffer[]): Buffer {
  return Buffer.concat([
    jpeg.subarray(0, 2),
    ...segments,
    jpeg.subarray(2),
    Buffer.from(`trailing ${place}`),
  ]);
}

/** The markers of a JPEG up to its picture. */
function markersOf(jpeg: Uint8Array): number[] {
  const markers: number[] = [];
  for (let at = 2; at < jpeg.length && jpeg[at] === 0xff; ) {
    const marker = jpeg[at + 1]!;
    markers.push(marker);
    if (marker === 0xda) break;
    at += 2 + (jpeg[at + 2]! << 8) + jpeg[at + 3]!;
  }
  return markers;
}

describe("a photograph as it is kept", () => {
  it("is pixels alone: place, time, device, name, preview, profile and comments are gone", async () => {
    const laden = await ladenPhoto();
    const before = await sharp(laden).metadata();
    expect([before.exif, before.xmp, before.icc].every((part) => part !== undefined)).toBe(true);
    const kept = await preparePhoto(laden);
    for (const { bytes } of [kept, kept.thumbnail]) {
      const after = await sharp(bytes).metadata();
      expect([after.exif, after.xmp, after.icc, after.iptc, after.comments]).toEqual([
        undefined,
        undefined,
        undefined,
        undefined,
        undefined,
      ]);
      const text = Buffer.from(bytes).toString("latin1");
      for (const trace of [
        "Exif",
        "Edda Voss",
        "Invented",
        "51 deg",
        "preview",
        "adobe",
        "Photoshop",
        "ICC",
      ]) {
        expect(text).not.toContain(trace);
      }
      // JFIF, tables, frame and picture: no other application segment and no comment
      const allowed = new Set([0xe0, 0xdb, 0xc0, 0xc2, 0xc4, 0xda, 0xdd]);
      expect(markersOf(bytes).filter((marker) => !allowed.has(marker))).toEqual([]);
      expect(Buffer.from(bytes.subarray(-2)).toString("hex")).toBe("ffd9");
    }
  });

  it.each([1, 3, 6, 8])("stands the way it was held (orientation %i)", async (orientation) => {
    // Left half red, right half white, and stored turned as a camera of this orientation does.
    const red = await sharp({ create: { width: 200, height: 300, channels: 3, background: "#c00000" } })
      .png()
      .toBuffer();
    const upright = sharp({
      create: { width: 400, height: 300, channels: 3, background: "#ffffff" },
    }).composite([{ input: red, left: 0, top: 0 }]);
    const turned = { 1: 0, 3: 180, 6: 270, 8: 90 }[orientation]!;
    const stored = await sharp(await upright.png().toBuffer())
      .rotate(turned)
      .withMetadata({ orientation })
      .jpeg()
      .toBuffer();
    const kept = await preparePhoto(stored);
    expect([kept.widthPx, kept.heightPx]).toEqual([400, 300]);
    const { data } = await sharp(kept.bytes).raw().toBuffer({ resolveWithObject: true });
    const greenAt = (x: number, y: number) => data[(y * 400 + x) * 3 + 1]!;
    expect(greenAt(40, 150)).toBeLessThan(60);
    expect(greenAt(360, 150)).toBeGreaterThan(200);
  });

  it("keeps its colours when they were given in a wider range than screens have", async () => {
    const red = { create: { width: 200, height: 200, channels: 3 as const, background: "#b04040" } };
    const wide = await sharp(red).withIccProfile("p3").jpeg({ quality: 95 }).toBuffer();
    const kept = await preparePhoto(wide);
    const { data } = await sharp(kept.bytes).raw().toBuffer({ resolveWithObject: true });
    for (const [channel, wanted] of [0xb0, 0x40, 0x40].entries())
      expect(Math.abs(data[channel]! - wanted)).toBeLessThan(6);
  });

  it("is at most 1600 px long, with a small one for lists, and never made larger", async () => {
    const large = await preparePhoto(await cameraPhoto(4000, 3000));
    expect([large.widthPx, large.heightPx]).toEqual([1600, 1200]);
    expect([large.thumbnail.widthPx, large.thumbnail.heightPx]).toEqual([240, 180]);
    expect(await preparePhoto(await cameraPhoto(300, 200))).toMatchObject({ widthPx: 300, heightPx: 200 });
  });

  it.each(["png", "webp"] as const)("may come as %s", async (format) => {
    const bytes = await sharp(await cameraPhoto())
      .toFormat(format)
      .toBuffer();
    expect(Buffer.from((await preparePhoto(bytes)).bytes.subarray(0, 3)).toString("hex")).toBe("ffd8ff");
  });
});

describe("what is no photograph", () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="200" height="200"><script>alert(1)</script></svg>';
  it.each([
    ["nothing", Buffer.alloc(0)],
    ["text", Buffer.from("hello")],
    ["a page", Buffer.from("<!doctype html><script>alert(1)</script>")],
    ["a drawing that runs code", Buffer.from(svg)],
    ["a PDF", Buffer.from("%PDF-1.7\n")],
    ["a GIF", Buffer.from("GIF89a\x01\x00\x01\x00\x80\x00\x00")],
    ["a RIFF that is no WebP", Buffer.from("RIFF\x24\x00\x00\x00WAVEfmt ")],
  ])("is refused by its first bytes: %s", async (_what, bytes) => {
    await expect(preparePhoto(bytes)).rejects.toMatchObject({
      faults: [{ path: "photo", problem: "is not a photograph that can be read" }],
    });
  });

  it("a head without a body is refused, at whatever byte it ends", async () => {
    const whole = await cameraPhoto(2000, 1500);
    for (const length of [3, 20, 200, Math.floor(whole.length / 2), whole.length - 200]) {
      await expect(preparePhoto(whole.subarray(0, length))).rejects.toMatchObject({ name: "InputError" });
    }
  });

  it("a bomb is refused by its header, in less memory than it would unfold to", async () => {
    const bomb = pngOf(60_000, 60_000);
    expect(bomb.length).toBeLessThan(1000);
    const before = process.memoryUsage().rss;
    await expect(preparePhoto(bomb)).rejects.toMatchObject({
      faults: [{ problem: "has too many pixels", got: "60000 x 60000 px" }],
    });
    expect(process.memoryUsage().rss - before).toBeLessThan(200e6);
  });

  it("is refused just over the limits of pixels and bytes, and too small to measure by", async () => {
    const side = Math.ceil(Math.sqrt(photoLimits.megapixels * 1e6)) + 1;
    await expect(preparePhoto(pngOf(side, side))).rejects.toMatchObject({
      faults: [{ problem: "has too many pixels" }],
    });
    await expect(preparePhoto(Buffer.alloc(photoLimits.megabytes * 1e6 + 1, 0xff))).rejects.toMatchObject({
      faults: [{ problem: "is too large" }],
    });
    await expect(preparePhoto(await cameraPhoto(63, 400))).rejects.toMatchObject({
      faults: [{ problem: "is too small" }],
    });
  });
});

/** A PNG that says it is this large and holds next to nothing. @source PNG specification, IHDR and chunk layout */
function pngOf(widthPx: number, heightPx: number): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(widthPx, 0);
  header.writeUInt32BE(heightPx, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const chunk = (type: string, content: Buffer) => {
    const body = Buffer.concat([Buffer.from(type), content]);
    const ends = Buffer.alloc(8);
    ends.writeUInt32BE(content.length, 0);
    ends.writeUInt32BE(crc32(body), 4);
    return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
  };
  return Buffer.concat([
    Buffer.from("89504e470d0a1a0a", "hex"),
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(Buffer.alloc(64))),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}
