import { existsSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The project's own folder, with no slash at its end. */
export const projectDir = fileURLToPath(new URL("../..", import.meta.url)).replace(/[\\/]$/, "");

/** @param {string[]} parts */
export function inProject(...parts) {
  return join(projectDir, ...parts);
}

/** @param {string[]} parts of a path under node_modules */
export function isInstalled(...parts) {
  return existsSync(inProject("node_modules", ...parts));
}
