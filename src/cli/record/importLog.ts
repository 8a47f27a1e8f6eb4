import { Command, Option } from "commander";
import type { DateOrder, LogReport } from "../../record/log/index.ts";
import { Ended, statuses } from "../ending.ts";
import { bytesOf, type Source } from "../input/index.ts";
import { interruptible, onOneLine, showProgress, writeOut } from "../terminal/index.ts";
import { clinicOf, dataOption, type FolderOptions, progressOption, stomaOf, withRecord } from "./folder.ts";

interface LogOptions extends FolderOptions {
  person: string;
  stoma?: string;
  dateOrder?: DateOrder;
  goodOnly?: boolean;
  dryRun?: boolean;
}

export function importLogCommand(): Command {
  return new Command("log")
    .summary("take in a person's log of changes (CSV)")
    .description(
      "Takes in the log of changes of one stoma. All rows or none, unless --good-only is given.\n" +
        "Changes that are in the record already are left out, so the same file may be imported twice.",
    )
    .argument("[file]", "CSV; standard input when left out or -")
    .option(...dataOption)
    .requiredOption("--person <id>", "the person")
    .option("--stoma <id>", "the stoma, where the person has several")
    .addOption(
      new Option(
        "--date-order <order>",
        "how its dates are written, where they can be read in two ways",
      ).choices(["dmy", "mdy", "ymd"]),
    )
    .option("--good-only", "import the rows without faults and leave the others out")
    .option("--dry-run", "say what would be imported, and import nothing")
    .option(...progressOption)
    .addHelpText("after", examples)
    .action(importLogFrom);
}

const examples = `
Examples:
  $ roundel import log --data clinic --person ID --dry-run changes.csv
  $ roundel import log --data clinic --person ID --stoma ID --date-order dmy changes.csv
`;

async function importLogFrom(file: Source, options: LogOptions): Promise<void> {
  const bytes = await bytesOf(file);
  const { checkLog, importLog } = await import("../../record/log/index.ts");
  await withRecord(options.data, async (store) => {
    const clinic = await clinicOf(store);
    const { person, stoma } = await stomaOf(store, clinic.clinicId, options);
    const nowMs = Date.now();
    const context = { stoma, history: person.history, zone: clinic.details.timeZone, nowMs };
    const shown = showProgress("Importing: row", options.progress);
    await interruptible(async (signal) => {
      const report = await checkLog(bytes, context, { dateOrder: options.dateOrder, ...shown, signal });
      sayFaults(report);
      await writeOut(summary(report));
      if (!options.dryRun) {
        const { imported, duplicates } = await importLog(store, report, {
          clinicId: clinic.clinicId,
          personId: person.personId,
          stomaId: stoma.stomaId,
          author: clinic.details.nurse,
          nowMs,
          accept: options.goodOnly ? "goodOnly" : "all",
          onProgress: shown.onProgress,
          signal,
        });
        await writeOut(
          `Imported ${imported} changes; ${duplicates} were in the log or the record already.\n`,
        );
      }
      shown.end();
      if (report.badLines > 0 || report.problems.length > 0) throw new Ended(statuses.wrongInput);
    });
  });
}

function sayFaults({ problems, bad }: LogReport): void {
  for (const { text } of problems) console.error(onOneLine(`file: ${text}`));
  for (const { line, column, problem, got, expected } of bad) {
    console.error(
      onOneLine(
        `line ${line}: ${column ?? "row"}: ${problem} (got ${JSON.stringify(got)}, expected ${expected})`,
      ),
    );
  }
}

function summary({
  rows,
  good,
  badLines,
  duplicates,
  drafts,
  doubts,
  encoding,
  dateOrder,
}: LogReport): string {
  const lines = [
    `Read ${rows} rows (${encoding}, dates ${dateOrder ?? "in no clear order"}): ${good} good, ${badLines} with faults.`,
    `${drafts.length} new changes; ${duplicates.inRecord} in the record already, ${duplicates.inFile} twice in the file.`,
    ...doubts.map(
      ({ text, lines: at }) => `${text} (line ${at.slice(0, 5).join(", ")}${at.length > 5 ? ", …" : ""})`,
    ),
  ];
  return `${lines.join("\n")}\n`;
}
