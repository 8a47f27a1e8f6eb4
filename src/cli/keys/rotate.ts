import { Command } from "commander";
import { dataOption, type FolderOptions, progressOption, withOpenRecord } from "../record/folder.ts";
import { counted } from "../record/words.ts";
import { writeOut } from "../terminal/index.ts";
import { noteChange, renewalOf } from "./renewal.ts";

export function rotateCommand(): Command {
  return new Command("rotate")
    .summary("put a new key in the key file, where somebody may have seen the old one")
    .description(
      "Makes a new working key and seals every photograph anew for it. The old key stays in the key file, since older\n" +
        "backups open with it. One that was interrupted is finished instead. Copy the key file anew afterwards.",
    )
    .option(...dataOption)
    .option(...progressOption)
    .addHelpText("after", "\nExamples:\n  $ roundel keys rotate --data clinic\n")
    .action(rotate);
}

async function rotate({ data, progress }: FolderOptions): Promise<void> {
  const { rotateKeys } = await import("../../record/keys/index.ts");
  await withOpenRecord(data, async (record) => {
    const renewal = await renewalOf(record, progress);
    const { done, failed, wasUnfinished } = await rotateKeys(renewal);
    await noteChange(record);
    const what = wasUnfinished
      ? "The change of keys that was interrupted is finished"
      : "A new key is in force";
    await writeOut(
      `${what}; ${counted(done, "photograph")} sealed anew.\n` +
        `Copy the key file anew, and to every machine that runs this bench: ${renewal.keys.file}\n`,
    );
    if (failed > 0) {
      await writeOut(`${counted(failed, "photograph")} could not be opened: roundel check names them.\n`);
    }
  });
}
