import { type Command, Option } from "commander";

/**
 * Which record a command is about, beyond its data folder: every command that has `--data` takes these options too.
 * They are kept here for the one command that a process runs.
 */
interface Named {
  /** Address of a database; from the environment too. */
  database?: string;
  /** Another place for the key file than the usual one; from the environment too. */
  keyFile?: string;
  /** One of the clinics that keep their records in one database. */
  clinic?: string;
}

let named: Named = {};

/** Gives every command on a record the options that say which, and keeps what they are given. */
export function withRecordOptions(root: Command): Command {
  for (const command of commandsOnRecords(root)) {
    command.addOption(
      new Option("--database <url>", "the database with the record, instead of a folder").env("DATABASE_URL"),
    );
    command.addOption(
      new Option("--key-file <file>", "the key file, where it is not in its usual place").env(
        "ROUNDEL_KEY_FILE",
      ),
    );
    if (command.name() !== "serve") {
      command.option("--clinic <id>", "the clinic, where several keep their records together");
    }
  }
  return root.hook("preAction", (_root, command) => {
    named = command.opts<Named>();
  });
}

/** The demo is always a folder: invented people never go into a database of real ones. */
function commandsOnRecords(command: Command): Command[] {
  const own = command.options.some(({ long }) => long === "--data") && command.name() !== "demo";
  return [...(own ? [command] : []), ...command.commands.flatMap(commandsOnRecords)];
}

/** The database that was named; undefined where the record is in a folder. */
export function databaseNamed(): string | undefined {
  return named.database || undefined;
}

/** The key file that was named; undefined where it is in its usual place. */
export function keyFileNamed(): string | undefined {
  return named.keyFile || undefined;
}

/** The clinic that was named, if any. */
export function clinicNamed(): string | undefined {
  return named.clinic;
}
