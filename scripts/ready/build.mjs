import { rmSync } from "node:fs";
import { runNode } from "./command.mjs";
import { withLock } from "./lock.mjs";
import { inProject, isInstalled } from "./project.mjs";
import { isFresh, parts, sourcesNow, stampBuilt } from "./sources.mjs";
import { CannotGoOn } from "./stop.mjs";

/** How each part is built. Types are checked by `npm run typecheck`, so that a start need not wait for it. */
const builders = {
  program: {
    what: "the program",
    tool: ["typescript", "bin", "tsc"],
    args: ["-p", "tsconfig.build.json", "--noCheck"],
  },
  pages: {
    what: "the pages",
    tool: ["vite", "bin", "vite.js"],
    args: ["build", "--logLevel", "warn"],
  },
};

/**
 * Builds the parts whose sources changed since their last build; several processes may ask at once.
 * @param {import("./sources.mjs").Part[]} wanted
 * @param {{ force?: boolean, say: (sentence: string) => void }} options
 * @throws {CannotGoOn} when the tools are not installed or the build fails
 */
export async function build(wanted, { force = false, say }) {
  if (!force && wanted.every((part) => isFresh(part))) return;
  await withLock(
    inProject("dist", ".built", "lock"),
    async () => {
      if (force) for (const part of wanted) rmSync(inProject(parts[part].proof), { force: true });
      for (const part of wanted) if (!isFresh(part)) await buildPart(part, say);
    },
    () => say("Another process is building; waiting for it."),
  );
}

/** Whether the tools that build are here: a production-only install leaves them out. */
export function canBuild() {
  return Object.values(builders).every(({ tool }) => isInstalled(...tool));
}

async function buildPart(part, say) {
  const { what, tool, args } = builders[part];
  if (!isInstalled(...tool)) {
    throw new CannotGoOn(`Cannot build ${what}: ${tool[0]} is not installed. Run npm install first.`);
  }
  say(`Building ${what}.`);
  const before = sourcesNow(part);
  const status = await runNode(inProject("node_modules", ...tool), args, { quiet: true });
  if (status !== 0) throw new CannotGoOn(`Building ${what} failed; the reason is above.`);
  stampBuilt(part, before);
}
