import { Command } from "commander";
import { interruptible, showProgress, writeOut } from "../terminal/index.ts";
import { clinicOf, dataOption, type FolderOptions, progressOption, withRecord } from "./folder.ts";

export function rebuildCommand(): Command {
  return new Command("rebuild")
    .summary("make every list and figure anew from the entries")
    .description(
      "Empties what is derived from the entries (lists, sizes, wears, healing fits) and makes it anew.\n" +
        "Entries are never touched. Ctrl-C stops it and leaves everything as it was.",
    )
    .option(...dataOption)
    .option(...progressOption)
    .addHelpText("after", "\nExamples:\n  $ roundel rebuild --data clinic\n")
    .action(rebuild);
}

async function rebuild({ data, progress }: FolderOptions): Promise<void> {
  const { refreshFits } = await import("../../record/projection/index.ts");
  await withRecord(data, async (store) => {
    const story = await clinicOf(store);
    const people = showProgress("Rebuilding: person", progress);
    const made = await interruptible((signal) => store.rebuild({ onProgress: people.onProgress, signal }));
    people.end();
    const fits = showProgress("Healing curves: stoma", progress);
    const { refreshed } = await interruptible(async (signal) => {
      const result = await refreshFits(store, story, { onProgress: fits.onProgress, signal });
      signal.throwIfAborted();
      return result;
    });
    fits.end();
    await writeOut(
      `Rebuilt from ${made.entries} entries: ${made.people} people, ${refreshed} healing curves.\n`,
    );
  });
}
