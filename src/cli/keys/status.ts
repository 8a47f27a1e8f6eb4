import { Command } from "commander";
import type { OpenRecord } from "../../record/open/index.ts";
import { dataOption, type FolderOptions, withOpenRecord } from "../record/folder.ts";
import { atTime } from "../record/words.ts";
import { writeOut } from "../terminal/index.ts";

export function statusCommand(): Command {
  return new Command("status")
    .summary("which keys there are, and what is left to do")
    .description(
      "Tells where the key file is, when its keys were made, and whether the recovery key was proved.",
    )
    .option(...dataOption)
    .addHelpText("after", "\nExamples:\n  $ roundel keys status --data clinic\n")
    .action(({ data }: FolderOptions) => withOpenRecord(data, status));
}

async function status({ db, keys: openKeys }: OpenRecord): Promise<void> {
  const [{ isUnfinished }, { countStale }, { lastBackupOf }] = await Promise.all([
    import("../../record/keys/index.ts"),
    import("../../record/photo/index.ts"),
    import("../../record/carry/index.ts"),
  ]);
  const keys = await openKeys();
  const { recovery } = keys;
  const backup = await lastBackupOf(db);
  const lines: [string, string][] = [
    ["record", keys.recordId],
    ["key file", keys.file],
    ["working key", `made ${atTime(keys.working.madeAt)}`],
    ["retired keys", String(keys.retiredCount)],
    ["recovery key", recovery ? `made ${atTime(recovery.madeAt)}` : "none yet: roundel keys recovery"],
    ...(recovery ? [["proved", proofOf(recovery.provedAt)] as [string, string]] : []),
    ["last backup", backup ? `${atTime(backup.at)}, ${backup.file}` : "none: roundel backup"],
  ];
  if (await isUnfinished(db, keys)) {
    const left = await countStale(db, keys);
    lines.push(["unfinished", `${left} photographs are to be sealed anew: roundel keys rotate finishes it`]);
  }
  await writeOut(lines.map(([name, value]) => `${name.padEnd(13)} ${value}\n`).join(""));
}

function proofOf(provedAt: string | null): string {
  return provedAt === null ? "not yet: roundel keys prove" : atTime(provedAt);
}
