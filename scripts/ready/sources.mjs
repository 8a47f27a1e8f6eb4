import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { inProject, projectDir } from "./project.mjs";

/**
 * What is built from what. A part is fresh while the stamp written after its last build matches its sources:
 * first by names, sizes and times (a few milliseconds), and where those differ by content, since a checkout
 * changes times alone.
 */
export const parts = {
  program: {
    sources: ["src/domain", "src/record", "src/documents", "src/server", "src/cli"],
    settings: ["tsconfig.json", "tsconfig.build.json"],
    proof: "dist/cli/main.js",
  },
  pages: {
    sources: ["src"],
    settings: ["vite.config.ts", "tsconfig.json", "package-lock.json"],
    proof: "dist/web/index.html",
  },
};

/** @typedef {keyof typeof parts} Part */

/** @param {Part} part */
export function isFresh(part) {
  if (!existsSync(inProject("src"))) return existsSync(inProject(parts[part].proof));
  if (!existsSync(inProject(parts[part].proof))) return false;
  const stamp = readStamp(part);
  if (!stamp) return false;
  const files = sourceFiles(part);
  if (stamp.listing === listingOf(files)) return true;
  if (stamp.content !== contentOf(files)) return false;
  writeStamp(part, files, stamp.content);
  return true;
}

/**
 * Remembers that a part was built from what its sources held before the build.
 * @param {Part} part
 * @param {ReturnType<typeof sourcesNow>} before
 */
export function stampBuilt(part, before) {
  writeStamp(part, before.files, before.content);
}

/** @param {Part} part */
export function sourcesNow(part) {
  const files = sourceFiles(part);
  return { files, content: contentOf(files) };
}

function sourceFiles(part) {
  const { sources, settings } = parts[part];
  const found = sources.flatMap((folder) => filesUnder(folder));
  return [...found, ...settings.filter((file) => existsSync(inProject(file)))].sort().map((file) => {
    const { size, mtimeMs } = statSync(inProject(file));
    return { file, size, mtimeMs };
  });
}

function filesUnder(folder) {
  if (!existsSync(inProject(folder))) return [];
  return readdirSync(inProject(folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return filesUnder(path);
    return /\.test\.tsx?$/.test(entry.name) ? [] : [path];
  });
}

function listingOf(files) {
  return digest(files.map(({ file, size, mtimeMs }) => `${file}\0${size}\0${mtimeMs}`));
}

function contentOf(files) {
  return digest(files.flatMap(({ file }) => [file, readFileSync(join(projectDir, file))]));
}

function digest(pieces) {
  const hash = createHash("sha256");
  for (const piece of pieces) hash.update(piece).update("\0");
  return hash.digest("hex");
}

function stampFile(part) {
  return inProject("dist", ".built", `${part}.json`);
}

function readStamp(part) {
  try {
    return JSON.parse(readFileSync(stampFile(part), "utf8"));
  } catch {
    return null;
  }
}

function writeStamp(part, files, content) {
  mkdirSync(dirname(stampFile(part)), { recursive: true });
  writeFileSync(stampFile(part), JSON.stringify({ listing: listingOf(files), content }));
}
