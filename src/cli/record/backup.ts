import { Command, InvalidArgumentError } from "commander";
import { interruptible, showProgress, writeOut } from "../terminal/index.ts";
import { dataOption, type FolderOptions, progressOption, withOpenRecord } from "./folder.ts";
import { inSize } from "./words.ts";

export function backupCommand(): Command {
  return new Command("backup")
    .summary("write the whole record into one sealed file, while the bench runs")
    .description(
      "Writes the record as it stands at this instant: entries, lists, photographs, accounts, audit trail. The file is\n" +
        "sealed for the key file and the recovery key, and takes its name when all of it is on disk. The bench may run.",
    )
    .argument("<to>", "a folder, in which it gets a name by its date, or a file")
    .option(...dataOption)
    .option(
      "--keep <number>",
      "keep so many of this record's backups in the folder, and delete older ones",
      readKeep,
    )
    .option(...progressOption)
    .addHelpText("after", examples)
    .action(backup);
}

const examples = `
Examples:
  $ roundel backup --data clinic /media/backups
  $ roundel backup --data clinic /media/backups --keep 30
  $ roundel backup --data clinic before-the-update.age

Try now and then whether it comes back: roundel restore FILE --dry-run
`;

function readKeep(text: string): number {
  const keep = Number(text);
  if (!/^\d{1,6}$/.test(text) || keep < 1) throw new InvalidArgumentError("Keep one or more.");
  return keep;
}

async function backup(
  to: string,
  { data, keep, progress }: FolderOptions & { keep?: number },
): Promise<void> {
  const { backUp } = await import("../../record/carry/index.ts");
  await withOpenRecord(data, async (record) => {
    const shown = showProgress("Backing up: row", progress);
    const made = await interruptible((signal) =>
      backUp(record, { to, keep, onProgress: shown.onProgress, signal }),
    );
    shown.end();
    await writeOut(`Wrote ${made.rows} rows (${inSize(made.bytes)}) to ${made.file}\n`);
    for (const file of made.removed) await writeOut(`Deleted the older ${file}\n`);
    if (!made.opensWithRecoveryKey) {
      console.error(
        "This record has no recovery key yet: if its key file is lost, nobody opens this backup.\n" +
          "Make one: roundel keys recovery",
      );
    }
  });
}
