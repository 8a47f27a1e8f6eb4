import { runCommand } from "../../src/cli/main.ts";

/** The command line from its sources, for processes that a test may kill: `node --import tsx roundel.ts serve …` */
process.exitCode = await runCommand(process.argv.slice(2));
