import { existsSync } from "node:fs";
import { Command } from "commander";
import type { CheckedPart, Finding } from "../../record/check/index.ts";
import { Ended, Refusal, statuses } from "../ending.ts";
import { interruptible, onOneLine, showProgress, writeOut } from "../terminal/index.ts";
import { dataOption, type FolderOptions, folderNamed, progressOption, withOpenRecord } from "./folder.ts";
import { databaseNamed, keyFileNamed } from "./named.ts";
import { counted } from "./words.ts";

export function checkCommand(): Command {
  return new Command("check")
    .summary("look through the whole record for damage, and change nothing")
    .description(
      "Checks the pages of the file, every entry, every list against the entries it was made from, every photograph\n" +
        "and the audit trail. Exit status 1 if anything is damaged; it says what, and what mends it. The bench may run.",
    )
    .option(...dataOption)
    .option(...progressOption)
    .addHelpText("after", "\nExamples:\n  $ roundel check --data clinic\n")
    .action(check);
}

async function check(options: FolderOptions): Promise<void> {
  const found = await findingsIn(options);
  if (found.length === 0) return writeOut("Nothing is damaged.\n");
  const parts = [...new Set(found.map(({ part }) => part))];
  const { mendedBy } = await import("../../record/check/index.ts");
  await writeOut(
    `\n${counted(found.length, "finding")}. ${mends(parts, mendedBy, await lastBackup(options))}`,
  );
  throw new Ended(statuses.failed);
}

/** A file is opened for reading alone and not brought up to date: what is damaged is left exactly as it is. */
async function findingsIn(options: FolderOptions): Promise<Finding[]> {
  if (databaseNamed() !== undefined) return withOpenRecord(undefined, ({ db }) => findings({ db }, options));
  const { recordFile } = await import("../../record/store/index.ts");
  const file = recordFile(folderNamed(options.data));
  if (!existsSync(file))
    throw new Refusal(`The folder ${options.data} holds no record (there is no ${file}).`);
  return findings({ file }, options);
}

type Where = Parameters<typeof import("../../record/check/index.ts")["checkRecord"]>[0];

async function findings(where: Where, { data, progress }: FolderOptions): Promise<Finding[]> {
  const { checkRecord } = await import("../../record/check/index.ts");
  const entries = showProgress("Checking: entry", progress);
  const people = showProgress("Checking lists: person", progress);
  const photos = showProgress("Checking: photograph", progress);
  const found: Finding[] = [];
  await interruptible((signal) =>
    checkRecord(where, {
      places: { keyFile: keyFileNamed(), dataDir: data },
      async onFinding(finding) {
        found.push(finding);
        const { part, id, problem } = finding;
        await writeOut(`${onOneLine([part, id, problem].filter(Boolean).join(": "))}\n`);
      },
      onEntries: entries.onProgress,
      onPeople: people.onProgress,
      onPhotos: photos.onProgress,
      signal,
    }),
  );
  for (const shown of [entries, people, photos]) shown.end();
  return found;
}

/** The backup that would bring it back; null where the record no longer says, or never had one. */
async function lastBackup({ data }: FolderOptions): Promise<string | null> {
  const { lastBackupOf, readOnly } = await import("../../record/carry/index.ts");
  const fileOf = (found: { file: string } | null) => found?.file ?? null;
  if (databaseNamed() !== undefined) {
    return withOpenRecord(undefined, async ({ db }) => fileOf(await lastBackupOf(db)));
  }
  const { recordFile } = await import("../../record/store/index.ts");
  const db = readOnly(recordFile(folderNamed(data)));
  return lastBackupOf(db)
    .then(fileOf, () => null)
    .finally(() => db.destroy());
}

function mends(
  parts: readonly CheckedPart[],
  by: Record<CheckedPart, "restore" | "rebuild" | "keyFile">,
  backup: string | null,
): string {
  const needed = new Set(parts.map((part) => by[part]));
  const where = databaseNamed() === undefined ? "--data FOLDER --replace" : "--database EMPTY";
  const said = {
    restore: `A backup brings back what is damaged (stop the bench first):\n  roundel restore ${backup ?? "BACKUP"} ${where}`,
    rebuild: "Lists are made anew from the entries:\n  roundel rebuild",
    keyFile: "Put the key file back, or name it with --key-file.",
  };
  // Once a backup is restored its lists are right.
  if (needed.has("restore")) needed.delete("rebuild");
  return `To mend it:\n${[...needed].map((one) => said[one]).join("\n")}\n`;
}
