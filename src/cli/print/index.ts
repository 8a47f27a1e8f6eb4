import { Command } from "commander";
import { cuttingSheetCommand } from "./cuttingSheet.ts";
import { frameCardCommand } from "./frameCard.ts";
import { sitingRecordCommand } from "./sitingRecord.ts";

export function printCommand(): Command {
  return new Command("print")
    .summary("make a cutting sheet, a frame card or a siting record (PDF)")
    .description(
      "Makes pages as PDF. Print cutting sheets and frame cards at 100 %, never fitted to the page: they are true to size.",
    )
    .addHelpText("after", examples)
    .addCommand(cuttingSheetCommand())
    .addCommand(frameCardCommand())
    .addCommand(sitingRecordCommand());
}

const examples = `
Examples:
  $ roundel print cutting-sheet --example > sheet.json
  $ roundel print cutting-sheet sheet.json -o sheet.pdf
  $ roundel print frame-card --paper A4 -o card.pdf
  $ roundel print siting-record --example
`;
