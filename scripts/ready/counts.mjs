import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { inProject } from "./project.mjs";

const folder = inProject("test-results");
const countsFile = inProject("test-results", "vitest.json");
const closingLine = inProject("test-results", "closing-line.txt");

/** Removes the counts of an earlier run. @returns where vitest is to write those of this one */
export function clearCounts() {
  mkdirSync(folder, { recursive: true });
  for (const file of [countsFile, closingLine]) rmSync(file, { force: true });
  return countsFile;
}

/** One plain line for whatever reads the end of the output; it is kept for .ci/run to repeat. */
export function countsLine() {
  const line = lineFrom(countsFile);
  writeFileSync(closingLine, `${line}\n`);
  return line;
}

function lineFrom(file) {
  try {
    return closingLineOf(JSON.parse(readFileSync(file, "utf8")));
  } catch {
    return "0 passed, 1 failed";
  }
}

/**
 * A file that could not be run at all counts as one failure: its tests are not among those counted.
 * @param {{ numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number,
 *   testResults: { status: string, assertionResults: unknown[] }[] }} results as vitest's JSON reporter writes
 */
export function closingLineOf(results) {
  const broken = results.testResults.filter(
    ({ status, assertionResults }) => status === "failed" && assertionResults.length === 0,
  ).length;
  const skipped = results.numPendingTests + results.numTodoTests;
  const line = `${results.numPassedTests} passed, ${results.numFailedTests + broken} failed`;
  return skipped > 0 ? `${line}, ${skipped} skipped` : line;
}
