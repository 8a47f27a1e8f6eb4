import { nodeFault } from "./ready/node-version.mjs";

/**
 * npm run build, and npm's own `prepare` after an install: builds what changed, everything with --force.
 * As `prepare` it never fails the install: start, test and the command build again by themselves.
 */
const asPrepare = process.env.npm_lifecycle_event === "prepare";
const fault = nodeFault(process.versions.node);
if (fault) {
  console.error(fault);
  process.exitCode = asPrepare ? 0 : 1;
} else {
  const [{ build, canBuild }, { runToEnd }] = await Promise.all([
    import("./ready/build.mjs"),
    import("./ready/stop.mjs"),
  ]);
  await runToEnd(async () => {
    if (asPrepare && !canBuild()) {
      console.error("Roundel was not built: this install leaves the build tools out.");
      return;
    }
    await build(["program", "pages"], { force: process.argv.includes("--force"), say: console.error });
  });
  if (asPrepare) process.exitCode = 0;
}
