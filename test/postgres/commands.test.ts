import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type OpenRecord, openRecord } from "../../src/record/open/index.ts";
import { clinicEntry, clinicId, samplePerson } from "../record/samples.ts";
import { emptyDatabase } from "./database.ts";

const program = fileURLToPath(new URL("roundel.ts", import.meta.url));
const otherClinic = "7d0c2f5e-9a41-4f0b-8c55-2f9b1f6f0a77";

let folder: string;
let url: string;
let record: OpenRecord;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "commands-"));
  url = await emptyDatabase();
  record = await openRecord({ url });
  await record.store.append([clinicEntry(), ...samplePerson().entries]);
});
afterAll(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Said {
  status: number;
  stdout: string;
  stderr: string;
}

function roundel(args: string[], env: NodeJS.ProcessEnv = { DATABASE_URL: url }): Promise<Said> {
  const settings = { XDG_CONFIG_HOME: join(folder, "settings"), ...env };
  return new Promise((resolve) => {
    const all = ["--import", "tsx", program, ...args];
    const child = execFile(
      process.execPath,
      all,
      { env: { ...process.env, ...settings } },
      (_error, stdout, stderr) => resolve({ status: child.exitCode ?? -1, stdout, stderr }),
    );
    child.stdin!.end();
  });
}

describe("a command on a record in a database", () => {
  it("finds it by the environment or by its option, and needs no folder", async () => {
    const [rebuilt, exported] = await Promise.all([
      roundel(["rebuild"]),
      roundel(["export", "--database", url], {}),
    ]);
    expect(rebuilt).toMatchObject({
      status: 0,
      stdout: expect.stringMatching(/^Rebuilt from 3 entries: 1 people/),
    });
    expect(exported.status).toBe(0);
    expect(exported.stdout.trimEnd().split("\n")).toHaveLength(1 + 3);
  });

  it("asks which clinic is meant where there are several, and works on that one alone", async () => {
    const entries = [clinicEntry(), ...samplePerson().entries, ...samplePerson().entries];
    await record.store.append(entries.map((one) => ({ ...one, clinicId: otherClinic })));
    const [unsaid, said] = await Promise.all([
      roundel(["export"]),
      roundel(["export", "--clinic", otherClinic]),
    ]);
    expect(unsaid).toMatchObject({ status: 2, stdout: "" });
    expect(unsaid.stderr).toContain(`Which clinic? Name it with --clinic: ${clinicId}, ${otherClinic}.`);
    const [, ...lines] = said.stdout.trimEnd().split("\n");
    expect(lines.map((line) => JSON.parse(line).clinicId)).toEqual(Array(5).fill(otherClinic));
  });

  it("says what is wrong with a database that cannot be opened, and never its password", async () => {
    const silent = new URL(url);
    silent.port = "1";
    const { status, stdout, stderr } = await roundel(["export"], { DATABASE_URL: silent.href });
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(/^The database at 127\.0\.0\.1:1\/record_\w+ does not answer\./);
    expect(stderr).not.toContain(decodeURIComponent(silent.password));
    expect(stderr).not.toContain(silent.password);
  });
});
