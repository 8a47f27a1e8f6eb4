import { Command, Option } from "commander";
import type { DateOrder, LogReport } from "../../record/log/index.ts";
import type { OpenRecord } from "../../record/open/index.ts";
import { Ended, statuses } from "../ending.ts";
import { bytesOf, type Source } from "../input/index.ts";
import { interruptible, onOneLine, showProgress, writeOut } from "../terminal/index.ts";
import {
  atMachine,
  clinicOf,
  dataOption,
  type FolderOptions,
  progressOption,
  stomaOf,
  withOpenRecord,
} from "./folder.ts";

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
  const report = await withOpenRecord(options.data, (record) =>
    interruptible((signal) => importInto(record, bytes, options, signal)),
  );
  if (report.badLines > 0 || report.problems.length > 0) throw new Ended(statuses.wrongInput);
}

/** Says what is in the log and, unless it is a dry run, writes it into the record. */
async function importInto(
  { store, audit }: OpenRecord,
  bytes: Uint8Array,
  options: LogOptions,
  signal: AbortSignal,
): Promise<LogReport> {
  const [{ checkLog, importLog }, { linesOfWrite }, { readThroughOf }] = await Promise.all([
    import("../../record/log/index.ts"),
    import("../../record/audit/index.ts"),
    import("../../record/story/index.ts"),
  ]);
  const { clinicId, details } = await clinicOf(store);
  const { person, stoma } = await stomaOf(store, clinicId, options);
  const { onProgress, end } = showProgress("Importing: row", options.progress);
  const nowMs = Date.now();
  const context = { stoma, history: person.history, zone: details.timeZone, nowMs };
  const report = await checkLog(bytes, context, { dateOrder: options.dateOrder, onProgress, signal });
  end();
  sayFaults(report);
  await writeOut(summary(report));
  if (options.dryRun) return report;
  await audit.open();
  const { imported, duplicates } = await importLog(store, report, {
    clinicId,
    personId: person.personId,
    stomaId: stoma.stomaId,
    author: details.nurse,
    nowMs,
    accept: options.goodOnly ? "goodOnly" : "all",
    onProgress,
    signal,
    readThrough: readThroughOf(person),
    alongside: linesOfWrite(audit, { ...atMachine(), action: "importLog" }),
  });
  end();
  await writeOut(`Imported: ${imported}. Said twice or in the record already: ${duplicates}.\n`);
  return report;
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
