import { gzipSync } from "node:zlib";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { InputError } from "../../domain/fault.ts";
import { acceptImage, contentOf, imageLimits, refuseAsLog } from "./index.ts";

const plain = sharp({ create: { width: 40, height: 30, channels: 3, background: "#c66" } });
const pictures = {
  jpeg: () => plain.clone().jpeg().toBuffer(),
  progressive: () => plain.clone().jpeg({ progressive: true }).toBuffer(),
  png: () => plain.clone().png().toBuffer(),
  webp: () => plain.clone().webp().toBuffer(),
  webpLossless: () => plain.clone().webp({ lossless: true }).toBuffer(),
  webpExtended: () =>
    plain
      .clone()
      .withExif({ IFD0: { Software: "test" } })
      .webp()
      .toBuffer(),
};

const text = (value: string) => new TextEncoder().encode(value);

function problem(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof InputError) return `${error.faults[0]?.path} ${error.faults[0]?.problem}`;
    throw error;
  }
  return "accepted";
}

describe("what a file is", () => {
  it.each([
    ["jpeg", "jpeg"],
    ["progressive", "jpeg"],
    ["png", "png"],
    ["webp", "webp"],
  ] as const)("a %s made elsewhere is known by its content", async (made, content) => {
    expect(contentOf(await pictures[made]())).toBe(content);
  });

  it.each([
    ["gif", text("GIF89a....")],
    ["tiff", new Uint8Array([0x49, 0x49, 0x2a, 0, 8, 0, 0, 0])],
    ["heif", text("\0\0\0\x18ftypheic")],
    ["pdf", text("%PDF-1.7")],
    ["spreadsheet", text("PK\u0003\u0004......[Content_Types].xml")],
    ["zip", text("PK\u0003\u0004......notes.txt")],
    ["gzip", gzipSync("a")],
    ["program", text("#!/bin/sh\nrm -rf /")],
    ["program", text("\x7fELF")],
    ["markup", text("  <svg xmlns='http://www.w3.org/2000/svg'/>")],
    ["markup", text("\ufeff<!DOCTYPE html><script>1</script>")],
    ["text", text("date,what,why\n2026-11-02,barrier,planned")],
    ["text", text("BM,date\n1,2026-11-02")],
    ["text", Buffer.from("\ufeffdate;what;why", "utf16le")],
    ["text", Buffer.from("größer;schmäler", "latin1")],
    ["text", text("")],
    ["unknown", new Uint8Array([1, 2, 3, 4])],
  ] as const)("%s", (content, file) => {
    expect(contentOf(file)).toBe(content);
  });
});

describe("a picture", () => {
  it.each(Object.keys(pictures) as (keyof typeof pictures)[])(
    "as %s is taken with the size that its header gives",
    async (made) => {
      expect(acceptImage(await pictures[made]())).toMatchObject({ widthPx: 40, heightPx: 30 });
    },
  );

  it("of forty million pixels is taken, of one row more it is not", () => {
    expect(problem(() => acceptImage(pngHeader(8000, 5000)))).toBe("accepted");
    expect(problem(() => acceptImage(pngHeader(8000, 5001)))).toBe("file has too many pixels");
  });

  it.each([
    ["a PNG of a few bytes", pngHeader(60_000, 60_000)],
    ["a PNG as wide as its number allows", pngHeader(0xffffffff, 1)],
    ["a JPEG", jpegFrames([60_000, 60_000])],
    ["a JPEG that promises little first and much later", jpegFrames([10, 10], [60_000, 60_000])],
    [
      "a WebP by its canvas",
      Buffer.concat([
        webp("VP8X", [0, 0, 0, 0, 0xff, 0xff, 0, 0xff, 0xff, 0]),
        webp("VP8L", [0x2f, 0, 0, 0, 0]).subarray(12),
      ]),
    ],
    ["a lossless WebP", webp("VP8L", [0x2f, 0xff, 0xff, 0xff, 0x0f])],
  ])("that would burst the memory is refused before it is decoded: %s", (_what, file) => {
    expect(file.length).toBeLessThan(100);
    expect(problem(() => acceptImage(file))).toBe("file has too many pixels");
  });

  it.each([
    ["cut off in its header", pngHeader(10, 10).subarray(0, 20)],
    ["without any pixel", pngHeader(0, 10)],
    ["whose first chunk is another", text("\u0089PNG\r\n\u001a\n")],
    ["a JPEG that ends before its frame", new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2])],
    ["a JPEG whose segment has no length", new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 0, 0, 0])],
    ["a JPEG without a frame", new Uint8Array([0xff, 0xd8, 0xff, 0xda, 0, 2])],
    ["a film as WebP", webp("VP8X", [2, 0, 0, 0, 9, 0, 0, 9, 0, 0])],
    ["a WebP that never comes to its picture", webp("EXIF", [1, 2, 3, 4])],
  ])("%s is refused", (_what, file) => {
    expect(problem(() => acceptImage(file))).toMatch(/^file (has a header that cannot be read|is )/);
  });

  it("of more than 25 MB is refused by its length alone", () => {
    const large = Buffer.concat([pngHeader(10, 10), Buffer.alloc(imageLimits.bytes)]);
    expect(problem(() => acceptImage(large))).toBe("file is too large");
  });

  it.each([
    [text("<svg width='9' height='9'/>"), "file is a web page or drawing (HTML, XML, SVG)"],
    [text("%PDF-1.4"), "file is a PDF"],
    [text("GIF89a"), "file is a picture (GIF)"],
    [text("hello"), "file is text"],
    [new Uint8Array(0), "file is text"],
  ])("is not what merely bears its name (%#)", (file, said) => {
    expect(problem(() => acceptImage(file))).toBe(said);
  });
});

describe("a log of changes", () => {
  it("is text; a workbook is left to the log to explain", () => {
    expect(problem(() => refuseAsLog(text("date,what,why\n")))).toBe("accepted");
    expect(problem(() => refuseAsLog(text("PK\u0003\u0004..[Content_Types].xml")))).toBe("accepted");
  });

  it("is no picture, packed folder or program, whatever it is called", async () => {
    expect(problem(() => refuseAsLog(text("PK\u0003\u0004..a.csv")))).toBe("file is a packed folder (ZIP)");
    expect(problem(() => refuseAsLog(gzipSync("date")))).toBe("file is a packed file (gzip)");
    const photograph = await pictures.jpeg();
    expect(problem(() => refuseAsLog(photograph))).toBe("file is a picture (JPEG)");
  });
});

function pngHeader(width: number, height: number): Buffer {
  const head = Buffer.from([
    0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52,
  ]);
  const size = Buffer.alloc(13);
  size.writeUInt32BE(width, 0);
  size.writeUInt32BE(height, 4);
  return Buffer.concat([head, size]);
}

function jpegFrames(...sizes: [width: number, height: number][]): Buffer {
  const frames = sizes.map(([width, height]) => {
    const frame = Buffer.from([0xff, 0xc0, 0, 11, 8, 0, 0, 0, 0, 1, 1, 0x11, 0]);
    frame.writeUInt16BE(height, 5);
    frame.writeUInt16BE(width, 7);
    return frame;
  });
  return Buffer.concat([Buffer.from([0xff, 0xd8]), ...frames, Buffer.from([0xff, 0xda, 0, 2])]);
}

function webp(chunk: string, body: number[]): Buffer {
  const head = Buffer.alloc(20);
  head.write("RIFF", 0, "latin1");
  head.writeUInt32LE(12 + body.length, 4);
  head.write(`WEBP${chunk}`, 8, "latin1");
  head.writeUInt32LE(body.length, 16);
  return Buffer.concat([head, Buffer.from(body)]);
}
