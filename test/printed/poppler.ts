import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, it } from "vitest";

/** One page as grey pixels, 0 black to 255 white. */
export interface Picture {
  width: number;
  height: number;
  pixels: Uint8Array;
  perMm: number;
}

/** A word as it stands on the page, in millimetres from the page's top left. */
export interface PrintedWord {
  text: string;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

const pointsPerMm = 72 / 25.4;
const missing = ["pdftoppm", "pdftotext"].filter((tool) => spawnSync(tool, ["-v"]).error !== undefined);

/**
 * Tests that need poppler. Without it they are skipped with a sentence that says so; on the build server, where
 * nothing may pass unmeasured, its absence is a failure.
 */
export function describePrinted(title: string, tests: () => void): void {
  if (missing.length === 0) {
    describe(title, tests);
    return;
  }
  const sentence = `${title}: not measured, ${missing.join(" and ")} not found; install poppler-utils`;
  if (process.env.CI === "true") {
    it(sentence, () => {
      throw new Error(sentence);
    });
  } else {
    console.warn(sentence);
    it.skip(sentence, () => {});
  }
}

/** Renders one page, from 1; 600 dots an inch unless given. */
export function render(pdf: Buffer, page = 1, dpi = 600): Picture {
  const only = ["-f", `${page}`, "-l", `${page}`];
  const pgm = withFile(pdf, (file) => run("pdftoppm", ["-r", `${dpi}`, "-gray", ...only, file]));
  return { ...readPgm(pgm), perMm: dpi / 25.4 };
}

/** The words of each page in reading order. */
export function wordsByPage(pdf: Buffer): PrintedWord[][] {
  const html = withFile(pdf, (file) => run("pdftotext", ["-bbox", file, "-"])).toString("utf8");
  return html
    .split("<page ")
    .slice(1)
    .map((page) =>
      [...page.matchAll(/<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)<\/word>/g)].map(
        printedWord,
      ),
    );
}

/** The text of each page on one line. */
export function textByPage(pdf: Buffer): string[] {
  return wordsByPage(pdf).map((words) => words.map(({ text }) => text).join(" "));
}

function printedWord([, ...groups]: RegExpMatchArray): PrintedWord {
  const [left, top, right, bottom] = groups.slice(0, 4).map((points) => Number(points) / pointsPerMm);
  const text = groups[4]!.replace(/&amp;/g, "&").replace(/&lt;/g, "<").replace(/&gt;/g, ">");
  return { text, left: left!, right: right!, top: top!, bottom: bottom! };
}

function withFile<T>(pdf: Buffer, use: (file: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "printed-"));
  const file = join(folder, "sheet.pdf");
  try {
    writeFileSync(file, pdf);
    return use(file);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function run(tool: string, args: string[]): Buffer {
  const { status, stdout, stderr } = spawnSync(tool, args, { maxBuffer: 2 ** 28 });
  if (status !== 0) throw new Error(`${tool} failed: ${stderr}`);
  return stdout;
}

/** Netpbm's binary grey map: "P5", width, height, 255, one byte a pixel. */
function readPgm(file: Buffer): { width: number; height: number; pixels: Uint8Array } {
  const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(file.subarray(0, 64).toString("latin1"));
  if (!header) throw new Error("not a grey map of 8 bits");
  const [width, height] = [Number(header[1]), Number(header[2])];
  return { width, height, pixels: file.subarray(header[0].length, header[0].length + width * height) };
}
