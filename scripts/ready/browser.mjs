import { existsSync } from "node:fs";
import { missingPrograms } from "../../test/browser/chromium.mjs";
import { run } from "./command.mjs";

const debianPackages = ["chromium", "poppler-utils"];

/**
 * Finds what the browser and print tests start. As root on Debian it installs what is missing, saying so.
 * @param {{ say: (sentence: string) => void }} options
 * @returns {Promise<import("../../test/browser/chromium.mjs").Program[]>} what is still missing
 */
export async function readyBrowser({ say }) {
  if (missingPrograms().length === 0 || !canUseApt()) return missingPrograms();
  say(`Installing ${debianPackages.join(" and ")} for the browser and print tests.`);
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  if ((await run("apt-get", ["update", "-q"], { env, quiet: true })) === 0) {
    await run("apt-get", ["install", "-y", "-q", "--no-install-recommends", ...debianPackages], {
      env,
      quiet: true,
    });
  }
  return missingPrograms();
}

/** Not where somebody named programs of their own: another would not be used. */
function canUseApt() {
  if (process.env.CHROMIUM_PATH || process.env.PDFTOPPM_PATH) return false;
  return process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
}
