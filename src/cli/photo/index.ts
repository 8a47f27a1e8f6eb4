import { Command, InvalidArgumentError } from "commander";
import { InputError, parseInput } from "../../domain/fault.ts";
import type { PhotoRequest } from "../../domain/photo/input.ts";
import { cardScaleLimits, heightLimitsMm, isWithin } from "../../domain/photo/limits.ts";
import { asJson } from "../compute/answer.ts";
import { Ended, faultLine, Refusal, statuses } from "../ending.ts";
import { bytesOf, linesOf, readJson, streamOf, textOf } from "../input/index.ts";
import { onOneLine, showProgress, writeOut } from "../terminal/index.ts";

interface Options {
  cardScale?: { x: number; y: number };
  heightMm?: number;
  debug?: string;
  lines?: boolean;
  pretty?: boolean;
  progress?: boolean;
}

/** `roundel compute photo`: pictures in, JSON Lines out. */
export function photoCommand(): Command {
  return new Command("photo")
    .summary("photographs with a frame card: the base of the stoma, its size and how sure it is")
    .description(
      "Measures the base of the stoma in each photograph that shows a frame card, one line of JSON each.\n" +
        "Without pictures, reads one JSON document from standard input. A file that cannot be read as a picture is\n" +
        "reported on standard error and the others are measured; the exit status is then 2. Nothing of a file but its\n" +
        "pixels is looked at.",
    )
    .argument("[pictures...]", "JPEG, PNG, WebP or AVIF files")
    .option(
      "--card-scale <x,y>",
      "the card's bars, measured over nominal: 0.97,1 for 97 mm across and 100 mm upright",
      readScale,
    )
    .option("--height-mm <mm>", "how far the stoma stands above the skin, seen from the side", readHeight)
    .option("--debug <folder>", "write pictures of the stages there, readable by you alone")
    .option("--lines", "read JSON Lines from standard input, one request each")
    .option("--pretty", "indent the answers")
    .option("--progress", "show progress on standard error even where no terminal watches")
    .addHelpText("after", examples)
    .action(measurePictures);
}

const examples = `
Examples:
  $ roundel compute photo stoma.jpg --height-mm 12
  $ roundel compute photo --card-scale 0.985,0.99 --debug stages *.jpg > sizes.jsonl
  $ echo '{"path":"stoma.jpg","heightMm":12}' | roundel compute photo
`;

async function measurePictures(pictures: string[], options: Options): Promise<void> {
  if (options.lines && pictures.length > 0)
    throw new Refusal("With --lines the pictures are named on standard input.");
  if (options.lines) return endWith(await measureLines(options));
  if (pictures.length === 0) {
    await measure(await requestOf(textOf(await bytesOf(undefined)), options), options);
    return;
  }
  const { onProgress, end } = showProgress("Measuring: photograph", options.progress);
  let failed = 0;
  for (const [at, path] of pictures.entries()) {
    onProgress?.(at, pictures.length);
    failed += (await isMeasured({ ...fromOptions(options), path }, options)) ? 0 : 1;
  }
  onProgress?.(pictures.length, pictures.length);
  end();
  endWith(failed);
}

/** @returns how many lines had faults */
async function measureLines(options: Options): Promise<number> {
  let line = 0;
  let failed = 0;
  for await (const bytes of linesOf(await streamOf(undefined))) {
    line += 1;
    if (bytes.every((byte) => byte === 0x20 || byte === 0x09 || byte === 0x0d)) continue;
    try {
      if (!(await isMeasured(await requestOf(textOf(bytes), options), options))) failed += 1;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      failed += 1;
      for (const fault of error.faults) console.error(`line ${line}: ${faultLine(fault)}`);
    }
  }
  return failed;
}

/** Measures one of several: a file that cannot be read is said and passed over. */
async function isMeasured(request: PhotoRequest, options: Options): Promise<boolean> {
  try {
    await measure(request, options);
    return true;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    console.error(onOneLine(error.message));
    return false;
  }
}

async function measure(request: PhotoRequest, { debug, pretty }: Options): Promise<void> {
  const { measureFile } = await import("./measureFile.ts");
  const answer = await measureFile(request, debug);
  await writeOut(`${asJson(answer, pretty ? 2 : 0)}\n`);
}

/** What a request does not say itself, the options say. */
async function requestOf(text: string, options: Options): Promise<PhotoRequest> {
  const { photoRequestSchema } = await import("../../domain/photo/input.ts");
  return { ...fromOptions(options), ...parseInput(photoRequestSchema, readJson(text)) };
}

function fromOptions({ cardScale, heightMm }: Options): Partial<PhotoRequest> {
  return { ...(cardScale && { cardScale }), ...(heightMm !== undefined && { heightMm }) };
}

function endWith(failed: number): void {
  if (failed > 0) throw new Ended(statuses.wrongInput);
}

function readScale(text: string): { x: number; y: number } {
  const [x, y, ...rest] = text.split(",").map(numberOf);
  if (rest.length === 0 && [x, y].every((value) => isWithin(value ?? Number.NaN, cardScaleLimits))) {
    return { x: x!, y: y! };
  }
  const { least, most } = cardScaleLimits;
  throw new InvalidArgumentError(
    `Give two numbers from ${least} to ${most} with a comma between them, as 0.97,1.`,
  );
}

function readHeight(text: string): number {
  const value = numberOf(text);
  if (isWithin(value, heightLimitsMm)) return value;
  throw new InvalidArgumentError(
    `Give millimetres from ${heightLimitsMm.least} to ${heightLimitsMm.most}, as 12.`,
  );
}

function numberOf(text: string): number {
  return text.trim() === "" ? Number.NaN : Number(text);
}
