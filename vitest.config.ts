import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** Key files of records that tests make lie apart from those of whoever runs the tests. */
const settings = mkdtempSync(join(tmpdir(), "roundel-test-settings-"));
process.env.XDG_CONFIG_HOME = settings;
process.once("exit", () => rmSync(settings, { recursive: true, force: true }));

/** Computations and what is told of them: no files, no servers, no state. */
const pure = ["src/domain/**/*.test.ts", "src/web/**/*.test.ts", "test/reference/**/*.test.ts"];

/** `npm test` runs every project; postgres starts a real database server, browser the real bench and a real Chromium. */
export default defineConfig({
  test: {
    // Vitest would leave one core to somebody at a keyboard, which on two cores is half of them.
    maxWorkers: "100%",
    projects: [
      {
        test: {
          name: "pure",
          // Nothing here keeps anything between two tests: one load of the modules serves every file.
          include: pure,
          isolate: false,
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: "unit",
          include: ["src/**/*.test.ts", "test/layers/**/*.test.ts", "scripts/**/*.test.mjs"],
          exclude: pure,
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: "postgres",
          // The store's own tests run on both engines.
          include: ["test/postgres/**/*.test.ts", "src/record/{store,today,accept}/*.test.ts"],
          globalSetup: ["test/postgres/globalSetup.ts"],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: "faults",
          // Killed, starved and lied to: see CONTRIBUTING.md for the long runs.
          include: ["test/faults/**/*.test.ts"],
          testTimeout: 120_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: "browser",
          include: ["test/browser/**/*.test.ts", "test/printed/**/*.test.ts"],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
