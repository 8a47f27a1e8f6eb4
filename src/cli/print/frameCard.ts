import { Command } from "commander";
import {
  checkOutput,
  outputOption,
  type PageOptions,
  paperOption,
  scaleOption,
  writePage,
} from "./options.ts";

export function frameCardCommand(): Command {
  return new Command("frame-card")
    .summary("the paper measuring frame")
    .description("Makes the frame card: print it at 100 %, measure its 100 mm bars, cut it out.")
    .addOption(outputOption())
    .addOption(paperOption().default("A4"))
    .addOption(scaleOption())
    .option("--label <text>", "a mark for cards printed together")
    .addHelpText("after", examples)
    .action(printFrameCard);
}

const examples = `
Examples:
  $ roundel print frame-card -o card.pdf
  $ roundel print frame-card --paper Letter --scale 0.985,0.99 -o card.pdf
`;

async function printFrameCard(options: PageOptions & { label?: string }): Promise<void> {
  checkOutput(options);
  const { frameCard } = await import("../../documents/index.ts");
  const { paper = "A4", scale, label } = options;
  await writePage(await frameCard({ paper, printScale: scale, batchLabel: label }), options);
}
