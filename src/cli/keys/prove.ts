import { Command } from "commander";
import { dataOption, type FolderOptions, progressOption, withOpenRecord } from "../record/folder.ts";
import { counted } from "../record/words.ts";
import { writeOut } from "../terminal/index.ts";
import { recoveryKeyFrom } from "./read.ts";
import { renewalOf } from "./renewal.ts";

export function proveCommand(): Command {
  return new Command("prove")
    .summary("prove that the recovery key on paper opens what it should")
    .description(
      "Asks for the recovery key on standard input, makes a small backup, restores it in a folder of its own with that\n" +
        "key alone, opens its photographs, and notes the day. Nothing of it is kept.",
    )
    .option(...dataOption)
    .option(...progressOption)
    .addHelpText("after", "\nExamples:\n  $ roundel keys prove --data clinic\n")
    .action(prove);
}

async function prove({ data, progress }: FolderOptions): Promise<void> {
  const { proveRecoveryKey } = await import("../../record/carry/index.ts");
  const { isUnfinished, rotateKeys } = await import("../../record/keys/index.ts");
  await withOpenRecord(data, async (record) => {
    const recoveryKey = await recoveryKeyFrom("-");
    const renewal = await renewalOf(record, progress);
    if (await isUnfinished(record.db, renewal.keys)) await rotateKeys(renewal);
    const { rows, photos } = await proveRecoveryKey(record, recoveryKey);
    await writeOut(
      `The recovery key opens it: a backup of ${counted(rows, "row")} came back whole, ${counted(photos, "photograph")} opened.\n`,
    );
  });
}
