import { Command } from "commander";
import { interruptible, showProgress, writeOut } from "../terminal/index.ts";
import { dataOption, type FolderOptions, progressOption, withOpenRecord } from "./folder.ts";
import { keyFileNamed } from "./named.ts";
import { counted } from "./words.ts";

export function moveCommand(): Command {
  return new Command("move")
    .summary("carry the record from its folder to a PostgreSQL database, or back")
    .description(
      "Carries everything to a place that is empty, reads it there again and compares the hash of every table. All of\n" +
        "it or nothing. The record stays where it was; nobody can write to it meanwhile. Stop the bench first.",
    )
    .option(...dataOption)
    .requiredOption("--to <place>", "postgres://… or a folder")
    .option(...progressOption)
    .addHelpText("after", examples)
    .action(moveTo);
}

const examples = `
Examples:
  $ roundel move --data clinic --to postgres://roundel@localhost/clinic
  $ roundel move --database postgres://roundel@localhost/clinic --to clinic-again

A password need not stand in the address, where others on the machine see it: it may stand in ~/.pgpass.
`;

async function moveTo({ data, to, progress }: FolderOptions & { to: string }): Promise<void> {
  const { move } = await import("../../record/carry/index.ts");
  const isDatabase = /^postgres(ql)?:\/\//.test(to);
  const carrying = showProgress("Carrying: row", progress);
  const comparing = showProgress("Comparing: row", progress);
  const { tables } = await withOpenRecord(data, (record) =>
    interruptible((signal) =>
      move(record, {
        to: isDatabase ? { url: to } : { dataDir: to },
        keyFile: keyFileNamed(),
        onProgress: carrying.onProgress,
        onComparing: comparing.onProgress,
        signal,
      }),
    ),
  );
  for (const shown of [carrying, comparing]) shown.end();
  for (const [name, { rows, sha256 }] of Object.entries(tables)) {
    await writeOut(`${name.padEnd(14)} ${sha256.slice(0, 16)}  ${counted(rows, "row")}\n`);
  }
  const next = isDatabase
    ? "Start the bench with --database or DATABASE_URL from now on."
    : `Start the bench with --data ${to} from now on.`;
  await writeOut(
    `Every table is the same on both sides. ${next}\nThe record that was carried is still where it was.\n`,
  );
}
