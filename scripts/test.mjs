import { nodeFault } from "./ready/node-version.mjs";

/**
 * npm test: makes everything ready, then runs vitest; arguments are passed on to it.
 * Without a browser its tests are left out and the reason is said; where CI is set they run, and fail with it.
 */
const fault = nodeFault(process.versions.node);
if (fault) {
  console.error(fault);
  process.exit(1);
}

const [
  { readyBrowser },
  { build },
  { runNode },
  { installLibraries, readyDatabase },
  { inProject },
  { runToEnd },
] = await Promise.all([
  import("./ready/browser.mjs"),
  import("./ready/build.mjs"),
  import("./ready/command.mjs"),
  import("./ready/libraries.mjs"),
  import("./ready/project.mjs"),
  import("./ready/stop.mjs"),
]);
const [{ missingSentence }, { clearCounts, countsLine }] = await Promise.all([
  import("../test/browser/chromium.mjs"),
  import("./ready/counts.mjs"),
]);

await runToEnd(async () => {
  const say = console.error;
  await installLibraries({ say, forDevelopment: true });
  await readyDatabase({ say });
  await build(["program", "pages"], { say });
  const missing = await readyBrowser({ say });
  const leftOut = missing.includes("chromium") && !process.env.CI ? ["--exclude", "test/browser/**"] : [];
  const warning =
    missing.length > 0 ? `\n!! ${missingSentence(missing)}${leftOut.length > 0 ? " SKIPPED." : ""}\n` : "";
  if (warning) say(warning);
  const status = await runVitest([...leftOut, ...process.argv.slice(2)]);
  if (warning) say(warning);
  console.log(countsLine());
  return status;
});

async function runVitest(args) {
  const countsFile = clearCounts();
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${countsFile}`];
  return runNode(inProject("node_modules", "vitest", "vitest.mjs"), ["run", ...reporters, ...args]);
}
