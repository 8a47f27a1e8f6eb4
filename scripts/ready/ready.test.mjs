import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { closingLineOf } from "./counts.mjs";
import { missingFrom } from "./libraries.mjs";
import { withLock } from "./lock.mjs";
import { nodeFault, oldestNode } from "./node-version.mjs";
import { inProject } from "./project.mjs";

describe("the Node it runs on", () => {
  it("is the one that package.json names", () => {
    const { engines } = JSON.parse(readFileSync(inProject("package.json"), "utf8"));
    expect(`${engines.node.replace(">=", "")}.0`).toBe(oldestNode);
  });

  it("may be the oldest or newer", () => {
    for (const version of ["20.11.0", "20.11.1", "20.12.0", "22.0.0"]) expect(nodeFault(version)).toBeNull();
  });

  it("may not be older, and the sentence names both versions", () => {
    for (const version of ["20.10.9", "18.20.4", "16.0.0"]) {
      expect(nodeFault(version)).toContain(`needs Node 20.11.0 or newer; this is Node ${version}`);
    }
  });

  it.each(["scripts/start.mjs", "scripts/test.mjs", "scripts/bench.mjs", "bin/roundel.mjs"])(
    "is looked at by %s before anything else",
    (script) => {
      const older = 'Object.defineProperty(process,"versions",{value:{...process.versions,node:"18.20.0"}})';
      const { status, stdout, stderr } = spawnSync(
        process.execPath,
        ["--import", `data:text/javascript,${older}`, inProject(script)],
        { encoding: "utf8" },
      );
      expect(stderr).toMatch(/^Roundel needs Node 20\.11\.0 or newer; this is Node 18\.20\.0\..*\n$/);
      expect([status, stdout]).toEqual([1, ""]);
    },
  );
});

describe("the libraries", () => {
  const wanted = {
    "": { version: "0.0.1" },
    "node_modules/zod": { version: "4.0.0" },
    "node_modules/vitest": { version: "4.1.0", dev: true },
    "node_modules/other-system": { version: "1.0.0", optional: true },
  };

  it("are complete when every one is there in its version", () => {
    const present = { "node_modules/zod": { version: "4.0.0" }, "node_modules/vitest": { version: "4.1.0" } };
    expect(missingFrom(present, wanted, { forDevelopment: true })).toEqual([]);
  });

  it("are missing when absent or of another version", () => {
    const present = { "node_modules/zod": { version: "3.9.9" } };
    expect(missingFrom(present, wanted, { forDevelopment: true })).toEqual(["zod", "vitest"]);
  });

  it("need no development tools to run", () => {
    const present = { "node_modules/zod": { version: "4.0.0" } };
    expect(missingFrom(present, wanted, { forDevelopment: false })).toEqual([]);
  });
});

describe("the lock", () => {
  let folder;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "lock-"));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it("lets one process at a time work", async () => {
    const lock = join(folder, "lock");
    let inside = 0;
    let most = 0;
    const work = async () => {
      inside += 1;
      most = Math.max(most, inside);
      await new Promise((resolve) => setTimeout(resolve, 20));
      inside -= 1;
    };
    await Promise.all([withLock(lock, work), withLock(lock, work), withLock(lock, work)]);
    expect([inside, most]).toEqual([0, 1]);
  });

  it("is taken over from a process that is gone", async () => {
    const lock = join(folder, "lock");
    const gone = spawnSync(process.execPath, ["--eval", ""]).pid;
    mkdirSync(lock);
    writeFileSync(join(lock, "owner"), String(gone));
    expect(await withLock(lock, async () => "done")).toBe("done");
  });

  it("is given back when the work fails", async () => {
    const lock = join(folder, "lock");
    await expect(
      withLock(lock, async () => {
        throw new Error("broke");
      }),
    ).rejects.toThrow("broke");
    expect(await withLock(lock, async () => "done")).toBe("done");
  });
});

describe("the closing line", () => {
  const counts = {
    numPassedTests: 7,
    numFailedTests: 0,
    numPendingTests: 0,
    numTodoTests: 0,
    testResults: [],
  };

  it("counts what passed and failed", () => {
    expect(closingLineOf(counts)).toBe("7 passed, 0 failed");
    expect(closingLineOf({ ...counts, numPendingTests: 2, numTodoTests: 1 })).toBe(
      "7 passed, 0 failed, 3 skipped",
    );
  });

  it("counts a file that could not be run as a failure", () => {
    const testResults = [{ status: "failed", assertionResults: [] }];
    expect(closingLineOf({ ...counts, testResults })).toBe("7 passed, 1 failed");
  });
});
