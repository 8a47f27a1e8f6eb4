import { InvalidArgumentError, Option } from "commander";
import type { Paper, PrintScale } from "../../documents/index.ts";
import { Refusal } from "../ending.ts";
import { writeFile } from "../output/index.ts";
import { interruptible, writeOut } from "../terminal/index.ts";

export interface PageOptions {
  output?: string;
  paper?: Paper;
  scale?: PrintScale;
}

export const outputOption = () =>
  new Option("-o, --output <file>", "the PDF to write, readable by you alone; standard output when left out");

export const paperOption = () =>
  new Option("--paper <paper>", "the paper in the printer").choices(["A4", "Letter"]);

export const scaleOption = () =>
  new Option(
    "--scale <x,y>",
    "what the printer made of the 100 mm bars, measured over nominal: 0.97,1 for 97 mm across and 100 mm upright",
  ).argParser(readScale);

function readScale(text: string): PrintScale {
  const [x, y, ...rest] = text.split(",").map((part) => (part.trim() === "" ? Number.NaN : Number(part)));
  if (x === undefined || y === undefined || rest.length > 0 || !Number.isFinite(x) || !Number.isFinite(y)) {
    throw new InvalidArgumentError(
      "Give two numbers with a comma between them and a point in each, as 0.97,1.",
    );
  }
  return { x, y };
}

/** Refuses before any work to pour a PDF into a terminal. @throws {Refusal} */
export function checkOutput({ output }: PageOptions): void {
  if (output === undefined && process.stdout.isTTY)
    throw new Refusal("Name the PDF to write with -o, as -o sheet.pdf.");
}

export async function writePage(pdf: Uint8Array, { output }: PageOptions): Promise<void> {
  if (output === undefined) return writeOut(pdf);
  return interruptible((signal) => writeFile(output, [pdf], signal));
}
