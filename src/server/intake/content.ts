/** What a file is by its first bytes; its name and what a browser calls it are only claims. */
export type Content =
  | "jpeg"
  | "png"
  | "webp"
  | "gif"
  | "tiff"
  | "bmp"
  | "heif"
  | "pdf"
  | "spreadsheet"
  | "zip"
  | "gzip"
  | "program"
  | "markup"
  | "text"
  | "unknown";

/** Kinds of content as a sentence calls them. */
export const contentWords: Record<Content, string> = {
  jpeg: "a picture (JPEG)",
  png: "a picture (PNG)",
  webp: "a picture (WebP)",
  gif: "a picture (GIF)",
  tiff: "a picture (TIFF)",
  bmp: "a picture (bitmap)",
  heif: "a picture or film (HEIF, MP4)",
  pdf: "a PDF",
  spreadsheet: "a spreadsheet",
  zip: "a packed folder (ZIP)",
  gzip: "a packed file (gzip)",
  program: "a program",
  markup: "a web page or drawing (HTML, XML, SVG)",
  text: "text",
  unknown: "of no kind that is known here",
};

type Sign = [content: Content, offset: number, bytes: readonly number[]];
const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0));

/** @source the formats' own specifications; quoted from memory, and held against real files in the tests */
const signs: readonly Sign[] = [
  ["jpeg", 0, [0xff, 0xd8, 0xff]],
  ["png", 0, [0x89, ...ascii("PNG"), 0x0d, 0x0a, 0x1a, 0x0a]],
  ["gif", 0, ascii("GIF8")],
  ["tiff", 0, [...ascii("II"), 0x2a, 0]],
  ["tiff", 0, [...ascii("MM"), 0, 0x2a]],
  ["heif", 4, ascii("ftyp")],
  ["pdf", 0, ascii("%PDF-")],
  ["spreadsheet", 0, [0xd0, 0xcf, 0x11, 0xe0]],
  ["gzip", 0, [0x1f, 0x8b]],
  ["program", 0, ascii("MZ")],
  ["program", 0, [0x7f, ...ascii("ELF")]],
  ["program", 0, ascii("#!")],
];

/** How far into a file is looked. */
const lookedAt = 4096;

export function contentOf(file: Uint8Array): Content {
  const bytes = file.subarray(0, lookedAt);
  if (isAt(bytes, 0, ascii("RIFF"))) return isAt(bytes, 8, ascii("WEBP")) ? "webp" : "unknown";
  if (isAt(bytes, 0, [...ascii("PK"), 3, 4])) return isSheet(bytes) ? "spreadsheet" : "zip";
  // "BM" may begin a text too; the four bytes of its length then say something else.
  if (isAt(bytes, 0, ascii("BM")) && lengthIn(bytes, 2) === file.length) return "bmp";
  const sign = signs.find(([, offset, wanted]) => isAt(bytes, offset, wanted));
  if (sign) return sign[0];
  return textOrUnknown(bytes);
}

function isAt(bytes: Uint8Array, offset: number, wanted: readonly number[]): boolean {
  return wanted.every((byte, index) => bytes[offset + index] === byte);
}

function lengthIn(bytes: Uint8Array, offset: number): number {
  if (bytes.length < offset + 4) return -1;
  return new DataView(bytes.buffer, bytes.byteOffset).getUint32(offset, true);
}

/** Workbooks are packed folders whose first file says so. */
function isSheet(bytes: Uint8Array): boolean {
  const start = Buffer.from(bytes).toString("latin1");
  return /\[Content_Types\]\.xml|xl\/|application\/vnd\.oasis\.opendocument\.spreadsheet/.test(start);
}

const utf16Marks = [
  [0xff, 0xfe],
  [0xfe, 0xff],
];

function textOrUnknown(bytes: Uint8Array): Content {
  if (bytes.length === 0) return "text";
  if (utf16Marks.some((mark) => isAt(bytes, 0, mark))) return "text";
  // Text holds no control characters but tabs, ends of lines and the form feed; UTF-16 holds a zero in every other byte.
  const control = bytes.filter((byte) => byte < 9 || (byte > 13 && byte < 32 && byte !== 27)).length;
  const zeros = bytes.filter((byte) => byte === 0).length;
  if (control > zeros || (zeros > 0 && zeros < bytes.length * 0.3)) return "unknown";
  const start = Buffer.from(bytes.subarray(0, 512))
    .toString("latin1")
    .replace(/^\xef\xbb\xbf/, "")
    .trimStart();
  return /^<(\?xml|!doctype|html|svg|script|!--)/i.test(start) ? "markup" : "text";
}
