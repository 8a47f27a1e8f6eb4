import { Command } from "commander";
import { cuttingSheetCommand } from "./cuttingSheet.ts";
import { frameCardCommand } from "./frameCard.ts";

export function printCommand(): Command {
  return new Command("print")
    .summary("make a cutting sheet or a frame card (PDF, 1:1)")
    .description(
      "Makes pages to be printed at their real size, as PDF. Print at 100 %, never fitted to the page.",
    )
    .addHelpText("after", examples)
    .addCommand(cuttingSheetCommand())
    .addCommand(frameCardCommand());
}

const examples = `
Examples:
  $ roundel print cutting-sheet --example > sheet.json
  $ roundel print cutting-sheet sheet.json -o sheet.pdf
  $ roundel print frame-card --paper A4 -o card.pdf
`;
