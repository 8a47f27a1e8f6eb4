import { Command } from "commander";
import { proveCommand } from "./prove.ts";
import { recoveryCommand } from "./recovery.ts";
import { rotateCommand } from "./rotate.ts";
import { statusCommand } from "./status.ts";

export function keysCommand(): Command {
  return new Command("keys")
    .summary("the keys of a record: make the recovery key, prove it, rotate")
    .description(
      "Photographs and backups are sealed for two keys: the one in the key file, which the bench made at its first start\n" +
        "outside the data folder, and a recovery key on paper. Either opens them alone; without both nothing does.",
    )
    .addHelpText("after", examples)
    .addCommand(recoveryCommand())
    .addCommand(proveCommand())
    .addCommand(rotateCommand())
    .addCommand(statusCommand());
}

const examples = `
Examples:
  $ roundel keys recovery --data clinic -o recovery-key.pdf
  $ roundel keys prove --data clinic
  $ roundel keys rotate --data clinic
  $ roundel keys status --data clinic
`;
