import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { run, runNode } from "./command.mjs";
import { inProject } from "./project.mjs";
import { CannotGoOn } from "./stop.mjs";

/**
 * Installs what package-lock.json names, unless it is there already.
 * @param {{ say: (sentence: string) => void, forDevelopment: boolean }} options
 * @throws {CannotGoOn} when npm fails
 */
export async function installLibraries({ say, forDevelopment }) {
  const missing = missingLibraries({ forDevelopment });
  if (missing.length === 0) return;
  const why = existsSync(inProject("node_modules"))
    ? `${missing.length} of the libraries differ from package-lock.json (${missing[0]})`
    : "the libraries are not installed yet";
  say(`Installing: ${why}. This takes a minute or two.`);
  const status = await run("npm", ["ci", "--include=dev", "--no-audit", "--no-fund"]);
  if (status !== 0) {
    throw new CannotGoOn("npm could not install the libraries; what it says is above. Is the network there?");
  }
}

/** Names of packages that package-lock.json wants and npm has not put in node_modules in that version. */
export function missingLibraries({ forDevelopment }) {
  const wanted = packagesIn(inProject("package-lock.json"));
  const present = packagesIn(inProject("node_modules", ".package-lock.json"));
  return missingFrom(present, wanted, { forDevelopment });
}

/**
 * Optional packages are for other machines than this one, so that their absence says nothing.
 * @param {Record<string, { version?: string }>} present packages by their path, as npm's lock files list them
 * @param {Record<string, { version?: string, dev?: boolean, optional?: boolean, devOptional?: boolean, peer?: boolean }>} wanted
 */
export function missingFrom(present, wanted, { forDevelopment }) {
  return Object.entries(wanted)
    .filter(([path, { optional, devOptional, dev, peer }]) => {
      if (path === "" || optional || devOptional || peer) return false;
      return forDevelopment || !dev;
    })
    .filter(([path, { version }]) => present[path]?.version !== version)
    .map(([path]) => path.replace(/^.*node_modules\//, ""));
}

function packagesIn(file) {
  try {
    return JSON.parse(readFileSync(file, "utf8")).packages ?? {};
  } catch {
    return {};
  }
}

/**
 * Makes sure that the database library, which is compiled for one release of Node, loads in this one.
 * @param {{ say: (sentence: string) => void }} options
 * @throws {CannotGoOn} when it cannot be compiled
 */
export async function readyDatabase({ say }) {
  if (databaseLoads()) return;
  say(`Compiling the database library for Node ${process.versions.node}. This may take a minute or two.`);
  const status = await run("npm", ["rebuild", "better-sqlite3", "--no-audit", "--no-fund"]);
  const loads =
    status === 0 && (await runNode("--input-type=commonjs", ["--eval", openInMemory], { quiet: true })) === 0;
  if (!loads) {
    throw new CannotGoOn(
      "The database library (better-sqlite3) does not load and could not be compiled; what npm says is above.\n" +
        "On Debian or Ubuntu, apt-get install g++ make python3 brings what compiling needs.",
    );
  }
}

const openInMemory = 'new (require("better-sqlite3"))(":memory:").close()';

function databaseLoads() {
  try {
    const Database = createRequire(inProject("package.json"))("better-sqlite3");
    new Database(":memory:").close();
    return true;
  } catch {
    return false;
  }
}
