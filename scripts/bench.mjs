import { nodeFault } from "./ready/node-version.mjs";

/** npm run bench: measures speed and accuracy here and prints each beside its peer. */
const fault = nodeFault(process.versions.node);
if (fault) {
  console.error(fault);
  process.exit(1);
}

const [{ runNode }, { installLibraries, readyDatabase }, { inProject }, { runToEnd }] = await Promise.all([
  import("./ready/command.mjs"),
  import("./ready/libraries.mjs"),
  import("./ready/project.mjs"),
  import("./ready/stop.mjs"),
]);

await runToEnd(async () => {
  await installLibraries({ say: console.error, forDevelopment: true });
  await readyDatabase({ say: console.error });
  return runNode("--import", ["tsx", inProject("test", "bench", "index.ts"), ...process.argv.slice(2)]);
});
