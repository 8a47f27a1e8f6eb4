import { Command } from "commander";
import { recoveryKeyFrom } from "../keys/read.ts";
import { interruptible, showProgress, writeOut } from "../terminal/index.ts";
import { dataOption, type FolderOptions, folderNamed, progressOption } from "./folder.ts";
import { databaseNamed, keyFileNamed } from "./named.ts";
import { atTime, counted } from "./words.ts";

interface RestoreCommandOptions extends FolderOptions {
  replace?: boolean;
  recoveryKey?: string;
  dryRun?: boolean;
}

export function restoreCommand(): Command {
  return new Command("restore")
    .summary("bring a record back from a backup")
    .description(
      "Checks the whole backup first, and changes nothing if anything is wrong with it. Whoever was erased since it\n" +
        "was made is erased again. Stop the bench before its record is replaced.",
    )
    .argument("<backup>", "the file that roundel backup wrote")
    .option(...dataOption)
    .option(
      "--replace",
      "put it in the place of the record that is there, which is set aside and not deleted",
    )
    .option("--recovery-key <file>", "open it with the recovery key alone, from a file or (-) standard input")
    .option("--dry-run", "read and check the whole backup, and write nothing")
    .option(...progressOption)
    .addHelpText("after", examples)
    .action(restoreFrom);
}

const examples = `
Examples:
  $ roundel restore /media/backups/roundel-8728edb7-2026-11-25T030000000Z.jsonl.gz.age --dry-run
  $ roundel restore BACKUP --data clinic --replace
  $ roundel restore BACKUP --data clinic --recovery-key -
  $ roundel restore BACKUP --database postgres://roundel@localhost/empty
`;

async function restoreFrom(from: string, options: RestoreCommandOptions): Promise<void> {
  const openedBy = { keyFile: keyFileNamed(), recoveryKey: await recoveryKeyFrom(options.recoveryKey) };
  const { restore, verifyBackup } = await import("../../record/carry/index.ts");
  const checking = showProgress("Checking the backup: row", options.progress);
  const writing = showProgress("Writing: row", options.progress);
  const steps = { onChecking: checking.onProgress, onWriting: writing.onProgress };
  if (options.dryRun) {
    const found = await interruptible((signal) => verifyBackup({ from, ...openedBy, ...steps, signal }));
    checking.end();
    return writeOut(`The backup is whole: ${contentOf(found)}. Nothing was written.\n`);
  }
  const url = databaseNamed();
  const to = url === undefined ? { dataDir: folderNamed(options.data) } : { url };
  const { replace } = options;
  const done = await interruptible((signal) => restore({ from, to, replace, ...openedBy, ...steps, signal }));
  for (const shown of [checking, writing]) shown.end();
  const said = [`Restored: ${contentOf(done.backup)}.`, `Its key file is ${done.keyFile}`];
  if (done.erasedAgain > 0) {
    said.push(`${counted(done.erasedAgain, "person", "people")} erased since then: erased again.`);
  }
  if (done.photosLost > 0) {
    said.push(
      `${counted(done.photosLost, "photograph")} cannot be opened with the keys at hand: roundel check names them.`,
    );
  }
  if (done.setAside !== null) {
    said.push(
      `The record that was there is now ${done.setAside}`,
      "Delete it when you need it no longer: it is not sealed.",
    );
  }
  await writeOut(`${said.join("\n")}\n`);
}

function contentOf({ entries, photos, madeAt }: { entries: number; photos: number; madeAt: string }): string {
  const what = `${counted(entries, "entry", "entries")} and ${counted(photos, "photograph")}`;
  return `${what}, as they were at ${atTime(madeAt)}`;
}
