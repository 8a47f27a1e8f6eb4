import { CommanderError } from "commander";
import { statusAfter, statuses } from "./ending.ts";
import { program } from "./program.ts";
import { quietWhenReaderLeaves } from "./terminal/index.ts";

/** Runs one command line and gives its exit status; what went wrong has been said on standard error. */
export async function runCommand(args: readonly string[]): Promise<number> {
  quietWhenReaderLeaves();
  try {
    await program().parseAsync(args, { from: "user" });
    return statuses.ok;
  } catch (error) {
    // Commander has shown its own sentence, or the help that was asked for.
    if (error instanceof CommanderError) return error.exitCode === 0 ? statuses.ok : statuses.wrongInput;
    return statusAfter(error);
  }
}
