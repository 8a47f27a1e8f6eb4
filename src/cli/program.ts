import { Command } from "commander";
import { programVersion } from "../record/programVersion.ts";
import { accountCommand } from "./account/index.ts";
import { auditCommand } from "./audit/index.ts";
import { serveCommand } from "./bench/index.ts";
import { computeCommand } from "./compute/index.ts";
import { demoCommand } from "./demo/index.ts";
import { eraseCommand } from "./erase/index.ts";
import { keysCommand } from "./keys/index.ts";
import { printCommand } from "./print/index.ts";
import {
  backupCommand,
  checkCommand,
  exportCommand,
  importCommand,
  moveCommand,
  rebuildCommand,
  restoreCommand,
} from "./record/index.ts";
import { withRecordOptions } from "./record/named.ts";

/** The whole command line. */
export function program(): Command {
  const commands = [
    computeCommand(),
    serveCommand(),
    accountCommand(),
    printCommand(),
    importCommand(),
    exportCommand(),
    rebuildCommand(),
    backupCommand(),
    restoreCommand(),
    checkCommand(),
    moveCommand(),
    keysCommand(),
    auditCommand(),
    eraseCommand(),
    demoCommand(),
  ];
  const root = new Command("roundel")
    .description(
      "An ostomy nurse's bench: computations, the record, cutting sheets, and the pages of the clinic.",
    )
    .version(programVersion)
    .showSuggestionAfterError()
    .addHelpText("after", examples);
  for (const command of commands) root.addCommand(command);
  return throwing(withRecordOptions(root));
}

const examples = `
Examples:
  $ roundel serve --demo
  $ roundel compute wear --example | roundel compute wear --pretty
  $ roundel print frame-card -o card.pdf
  $ roundel export --data clinic -o record.jsonl

Each command has its own: roundel help compute
Exit status: 0 done, 1 failed, 2 wrong input or usage.
`;

/**
 * Commands throw where commander would end the process, so that output is written to its end first. An option
 * after `export log` is that command's own, though `export` has one of the same name.
 */
function throwing(command: Command): Command {
  command.exitOverride();
  command.enablePositionalOptions();
  command.showHelpAfterError("(see --help)");
  for (const inner of command.commands) throwing(inner);
  return command;
}
