import { Command } from "commander";
import { writeFile } from "../output/index.ts";
import { interruptible, writeOut } from "../terminal/index.ts";
import { atMachine, clinicOf, dataOption, type FolderOptions, stomaOf, withOpenRecord } from "./folder.ts";

export function exportCommand(): Command {
  return new Command("export")
    .summary("write the whole record of a clinic, or one person's log of changes")
    .description(
      "Writes the whole record of a clinic as JSON Lines, one entry a line, in the order it was committed.",
    )
    .option(...dataOption)
    .option("-o, --output <file>", "write to a file that only you can read; standard output when left out")
    .addHelpText("after", examples)
    .action(exportRecordOf)
    .addCommand(exportLogCommand());
}

const examples = `
Examples:
  $ roundel export --data clinic -o record.jsonl
  $ roundel export --data clinic | gzip > record.jsonl.gz
  $ roundel export log --data clinic --person ID -o changes.csv
`;

type ExportOptions = FolderOptions & { output?: string };

async function exportRecordOf({ data, output }: ExportOptions): Promise<void> {
  const { exportRecord } = await import("../../record/exchange/index.ts");
  await withOpenRecord(data, async ({ store, audit }) => {
    const { clinicId } = await clinicOf(store);
    await audit.append(clinicId, [{ ...atMachine(), action: "exportRecord", objects: [], outcome: "done" }]);
    const lines = exportRecord(store, clinicId, { exportedAt: new Date().toISOString() });
    if (output !== undefined) return interruptible((signal) => writeFile(output, lines, signal));
    for await (const line of lines) await writeOut(line);
  });
}

function exportLogCommand(): Command {
  return new Command("log")
    .summary("write one stoma's log of changes as CSV")
    .description("Writes the changes of one stoma as CSV, in the columns that roundel import log reads.")
    .option(...dataOption)
    .requiredOption("--person <id>", "the person")
    .option("--stoma <id>", "the stoma, where the person has several")
    .option("-o, --output <file>", "write to a file that only you can read; standard output when left out")
    .addHelpText("after", "\nExamples:\n  $ roundel export log --data clinic --person ID -o changes.csv\n")
    .action(exportLogOf);
}

async function exportLogOf(options: ExportOptions & { person: string; stoma?: string }): Promise<void> {
  const { writeLog } = await import("../../record/log/index.ts");
  await withOpenRecord(options.data, async ({ store, audit }) => {
    const { clinicId, details } = await clinicOf(store);
    const { stoma } = await stomaOf(store, clinicId, options);
    const objects = [{ kind: "person", id: options.person } as const];
    await audit.append(clinicId, [{ ...atMachine(), action: "exportLog", objects, outcome: "done" }]);
    const csv = writeLog(stoma, details.timeZone);
    if (options.output === undefined) return writeOut(csv);
    return interruptible((signal) => writeFile(options.output!, [csv], signal));
  });
}
