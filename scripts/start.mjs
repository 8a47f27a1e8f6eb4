import { nodeFault } from "./ready/node-version.mjs";

/**
 * npm start: makes everything ready, then opens the bench in the foreground. Without --data it opens the demo.
 * Every option of `roundel serve` may follow: npm start -- --data DIR --port 4180
 */
const fault = nodeFault(process.versions.node);
if (fault) {
  console.error(fault);
  process.exit(1);
}

const [{ build, canBuild }, { installLibraries, readyDatabase }, { runToEnd }, { isFresh }] =
  await Promise.all([
    import("./ready/build.mjs"),
    import("./ready/libraries.mjs"),
    import("./ready/stop.mjs"),
    import("./ready/sources.mjs"),
  ]);

await runToEnd(async () => {
  const say = console.log;
  const built = isFresh("program") && isFresh("pages");
  await installLibraries({ say, forDevelopment: !built && !canBuild() });
  await readyDatabase({ say });
  await build(["program", "pages"], { say });
  const { runCommand } = await import("../dist/cli/main.js");
  return runCommand(["serve", ...serveOptions(process.argv.slice(2))]);
});

/** The demo is opened unless a folder was named. */
function serveOptions(given) {
  const named = given.some(
    (option) => option === "--data" || option.startsWith("--data=") || option === "--demo",
  );
  return named ? given : ["--demo", ...given];
}
