import { addAbortSignal } from "node:stream";
import { Command } from "commander";
import { Ended, faultLine, Refusal, statuses } from "../ending.ts";
import { linesOf, type Source, streamOf, textOf } from "../input/index.ts";
import { interruptible, showProgress, writeOut } from "../terminal/index.ts";
import {
  atMachine,
  dataOption,
  type FolderOptions,
  folderNamed,
  progressOption,
  withOpenRecord,
} from "./folder.ts";
import { importLogCommand } from "./importLog.ts";
import { databaseNamed } from "./named.ts";

export function importCommand(): Command {
  return new Command("import")
    .summary("take in a record (JSON Lines), or a person's log of changes (CSV)")
    .description(
      "Takes in a record as roundel export writes it. All of it or none, unless --good-only is given.\n" +
        "What is in the record already is left alone, so the same file may be imported twice.",
    )
    .argument("[file]", "JSON Lines; standard input when left out or -")
    .option(...dataOption)
    .option("--good-only", "import the lines without faults and leave the others out")
    .option(...progressOption)
    .addHelpText("after", examples)
    .action(importRecordFrom)
    .addCommand(importLogCommand());
}

const examples = `
Examples:
  $ roundel import --data clinic record.jsonl
  $ gunzip -c record.jsonl.gz | roundel import --data clinic
  $ roundel import log --data clinic --person ID --dry-run changes.csv
`;

type ImportOptions = FolderOptions & { goodOnly?: boolean };

async function importRecordFrom(file: Source, options: ImportOptions): Promise<void> {
  const { goodOnly, progress } = options;
  const data = databaseNamed() === undefined ? folderNamed(options.data) : undefined;
  const stream = await streamOf(file);
  const [{ importRecord }, { linesOfWrite }] = await Promise.all([
    import("../../record/exchange/index.ts"),
    import("../../record/audit/index.ts"),
  ]);
  const shown = showProgress("Importing: line", progress);
  const result = await withOpenRecord(
    data,
    async ({ store, audit }) => {
      if ((await store.mark("demo")) !== null) {
        throw new Refusal(`The folder ${data} holds the demo. Real people never go beside invented ones.`);
      }
      await audit.open();
      return interruptible((signal) =>
        importRecord(textLines(addAbortSignal(signal, stream)), store, {
          keepGood: goodOnly,
          onProgress: shown.onProgress,
          signal,
          alongside: linesOfWrite(audit, { ...atMachine(), action: "importRecord" }),
        }),
      );
    },
    { make: true },
  );
  shown.end();
  for (const { line, faults } of result.bad) {
    for (const fault of faults) console.error(`line ${line}: ${faultLine(fault)}`);
  }
  const { read, added, alreadyThere, bad, done } = result;
  await writeOut(
    done
      ? `Read ${read} lines: ${added} entries added, ${alreadyThere} already there, ${bad.length} left out.\n`
      : `Read ${read} lines: nothing was imported, because ${bad.length === 1 ? "1 of them has" : `${bad.length} of them have`} faults.\n`,
  );
  if (bad.length > 0) throw new Ended(statuses.wrongInput);
}

async function* textLines(stream: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  for await (const bytes of linesOf(stream)) yield textOf(bytes);
}
