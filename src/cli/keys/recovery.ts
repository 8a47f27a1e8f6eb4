import { Command } from "commander";
import type { Paper } from "../../documents/index.ts";
import { writeFile } from "../output/index.ts";
import { paperOption } from "../print/options.ts";
import { dataOption, type FolderOptions, progressOption, withOpenRecord } from "../record/folder.ts";
import { interruptible, writeOut } from "../terminal/index.ts";
import { noteChange, renewalOf } from "./renewal.ts";

interface RecoveryOptions extends FolderOptions {
  output?: string;
  paper: Paper;
  replace?: boolean;
}

export function recoveryCommand(): Command {
  return new Command("recovery")
    .summary("make the recovery key and show it, once")
    .description(
      "Makes the recovery key, shows it, and puts it in force: from then on everything is sealed for it too, and what\n" +
        "was sealed before is sealed anew. The key is kept nowhere but on the paper: it cannot be shown again.",
    )
    .option(...dataOption)
    .option(
      "-o, --output <file>",
      "write it as a page to print too, readable by you alone: delete it once printed",
    )
    .addOption(paperOption().default("A4"))
    .option("--replace", "make another one, where the paper of the first is lost")
    .option(...progressOption)
    .addHelpText("after", examples)
    .action(makeRecoveryKey);
}

const examples = `
Examples:
  $ roundel keys recovery --data clinic -o recovery-key.pdf
  $ roundel keys recovery --data clinic --replace
`;

async function makeRecoveryKey(options: RecoveryOptions): Promise<void> {
  const { enforceRecoveryKey, groupsOf, newRecoveryKey, refuseSecondRecoveryKey } = await import(
    "../../record/keys/index.ts"
  );
  await withOpenRecord(options.data, async (record) => {
    const renewal = await renewalOf(record, options.progress);
    refuseSecondRecoveryKey(renewal.keys, options.replace ?? false);
    const { identity, recipient } = await newRecoveryKey();
    const groups = groupsOf(identity);
    // Shown before it is in force: a key that is in force and was seen by nobody would be worth nothing.
    if (options.output !== undefined) await writePage(groups, renewal.keys.recordId, options.output, options);
    await writeOut(sheetText(groups, renewal.keys.recordId));
    const { done } = await enforceRecoveryKey({ recipient, replace: options.replace }, renewal);
    await noteChange(record);
    if (done > 0) await writeOut(`Photographs sealed anew for it: ${done}\n`);
    await writeOut(
      `It is in force. Prove its paper now, and once a year: roundel keys prove\n${
        options.output === undefined ? "" : `Print ${options.output}, then delete it.\n`
      }`,
    );
  });
}

async function writePage(
  groups: readonly string[],
  recordId: string,
  output: string,
  { paper }: RecoveryOptions,
): Promise<void> {
  const { recoveryKeyPage } = await import("../../documents/index.ts");
  const madeOn = new Date().toISOString().slice(0, 10);
  const pdf = await recoveryKeyPage({ paper, groups, recordId, madeOn });
  await interruptible((signal) => writeFile(output, [pdf], signal));
}

function sheetText([beginning, ...groups]: readonly string[], recordId: string): string {
  const lines = [groups.slice(0, 6), groups.slice(6)].map((row) => `    ${row.join(" ")}`);
  return [
    `The recovery key of the record ${recordId}`,
    "It opens every backup and every photograph, without the key file and without a password.",
    "",
    `    ${beginning}`,
    ...lines,
    "",
    "Write it on paper and lock it away from this machine. It is kept nowhere and never shown again.",
    "",
  ].join("\n");
}
