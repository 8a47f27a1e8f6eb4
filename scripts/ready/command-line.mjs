import { existsSync } from "node:fs";
import { build, canBuild } from "./build.mjs";
import { inProject, isInstalled, projectDir } from "./project.mjs";
import { CannotGoOn, runToEnd } from "./stop.mjs";

/** Runs the built program on this process's arguments, built anew where its sources changed. */
export async function openCommandLine() {
  hideJsonModuleWarning();
  await runToEnd(async () => {
    const args = process.argv.slice(2);
    await readyProgram(args[0] === "serve" ? ["program", "pages"] : ["program"]);
    const { runCommand } = await import("../../dist/cli/main.js");
    return runCommand(args);
  });
}

/** A production-only install cannot build: it runs what was built before. */
async function readyProgram(parts) {
  if (!isInstalled("commander")) {
    throw new CannotGoOn(`Roundel's libraries are not installed. Run npm install in ${projectDir} first.`);
  }
  if (!canBuild() && existsSync(inProject("dist", "cli", "main.js"))) return;
  await build(parts, { say: console.error });
}

/** Node 20 warns about every import of JSON; on standard error it would read as a fault of the input. */
function hideJsonModuleWarning() {
  const emitWarning = process.emitWarning;
  process.emitWarning = (warning, ...rest) => {
    if (/JSON modules/.test(String(warning))) return;
    emitWarning.call(process, warning, ...rest);
  };
}
