import { accessSync, constants, existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** Programs that the browser and print tests start; the names under which systems install them. */
const programs = {
  chromium: {
    setBy: "CHROMIUM_PATH",
    names: ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"],
    places: ["/Applications/Chromium.app/Contents/MacOS/Chromium"],
  },
  pdftoppm: { setBy: "PDFTOPPM_PATH", names: ["pdftoppm"], places: [] },
};

/** @typedef {keyof typeof programs} Program */

/** What these tests need that is not here. @returns {Program[]} */
export function missingPrograms() {
  return Object.keys(programs).filter((program) => findProgram(program) === null);
}

/** The browser to drive. @returns {string} @throws {Error} a sentence that says what to install */
export function chromiumPath() {
  return required("chromium");
}

/** Poppler's renderer, which turns a printed page into pixels. @returns {string} @throws {Error} likewise */
export function pdftoppmPath() {
  return required("pdftoppm");
}

/** @param {Program[]} missing */
export function missingSentence(missing) {
  const wrong = missing.filter((program) => process.env[programs[program].setBy]);
  if (wrong.length > 0) {
    const named = wrong.map(
      (program) => `${programs[program].setBy} (${process.env[programs[program].setBy]})`,
    );
    return `The browser and print tests cannot run: ${named.join(" and ")} names no program that can be started.`;
  }
  const set = missing.map((program) => programs[program].setBy).join(" and ");
  return (
    `The browser and print tests need ${missing.join(" and ")}, which was not found. ` +
    `On Debian or Ubuntu: apt-get install chromium poppler-utils. Elsewhere, install it and set ${set} to its path.`
  );
}

function required(program) {
  const path = findProgram(program);
  if (path === null) throw new Error(missingSentence([program]));
  return path;
}

/** A path that was set but holds no program counts as missing, so that a slip is seen. */
function findProgram(program) {
  const { setBy, names, places } = programs[program];
  const set = process.env[setBy];
  if (set) return isProgram(set) ? set : null;
  const folders = (process.env.PATH ?? "").split(delimiter).filter(Boolean);
  const onPath = folders.flatMap((folder) => names.map((name) => join(folder, name)));
  return [...onPath, ...places].find(isProgram) ?? null;
}

function isProgram(path) {
  if (!existsSync(path)) return false;
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
