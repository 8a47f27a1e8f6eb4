import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { roundel } from "../../../test/cli/roundel.ts";
import { clinicEntry, samplePerson } from "../../../test/record/samples.ts";
import { openRecord } from "../../record/open/index.ts";
import { recordFile } from "../../record/store/index.ts";

const edda = samplePerson({ name: "Edda Voss" });
const bram = samplePerson({ name: "Bram Okonjo" });

let folder: string;
let data: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "roundel-audit-"));
  data = join(folder, "clinic");
  const record = await openRecord({ dataDir: data });
  await record.store.append([clinicEntry(), ...edda.entries, ...bram.entries]);
  await record.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const audit = (...args: string[]) => roundel(["audit", ...args, "--data", data]);
const erase = (personId: string, typed: string, ground = "objected") =>
  roundel(["erase", personId, "--data", data, "--reason", ground], typed);

/** Each starts the command several times. */
const timeout = 60_000;

describe("the audit trail at the command line", { timeout }, () => {
  it("names what was done at the machine, and holds", async () => {
    expect((await roundel(["export", "--data", data, "-o", join(folder, "out.jsonl")])).status).toBe(0);
    const head = (await audit("head")).stdout.trim();
    expect(head).toMatch(/^1:[0-9a-f]{64}$/);
    expect(await audit("verify")).toMatchObject({
      status: 0,
      stdout: `The trail holds: 1 lines. Its head is ${head}\n`,
    });
    expect((await audit("verify", "--head", head)).status).toBe(0);
    const file = join(folder, "audit.jsonl");
    expect(await audit("export", "-o", file)).toMatchObject({ status: 0, stdout: "" });
    const lines = readFileSync(file, "utf8").trimEnd().split("\n");
    expect(lines.slice(1).map((line) => JSON.parse(line).action)).toEqual(["exportRecord", "exportAudit"]);
  });

  it("refuses a head that is none, and a clinic that it does not keep", async () => {
    expect(await audit("verify", "--head", "12")).toMatchObject({ status: 2 });
    expect((await audit("verify", "--clinic", "x")).stderr).toMatch(/^This record holds no clinic x\.\n$/);
  });
});

describe("erasing at the command line", { timeout }, () => {
  it("asks for the name, and leaves the person alone where another is typed", async () => {
    const other = await erase(edda.personId, "Bram Okonjo\n");
    expect(other).toMatchObject({ status: 2, stdout: "" });
    expect(other.stderr).toMatch(
      /Type the person's name.*This is not the person's name. Nothing was erased.\n$/s,
    );
    expect((await erase(edda.personId, "")).status).toBe(2);
    expect((await erase(edda.personId, "Edda Voss", "asked nicely")).status).toBe(2);
    expect((await erase("nobody", "Edda Voss")).stderr).toBe("This record holds no person nobody.\n");
  });

  it("takes the person away, and an import does not bring them back", async () => {
    expect(await erase(edda.personId, "edda voss\n")).toMatchObject({
      status: 0,
      stdout: "Erased: 2 entries, 0 photographs, 0 accounts.\n",
    });
    const again = await roundel(["import", "--data", data, join(folder, "out.jsonl")]);
    expect(again.status).toBe(2);
    expect(again.stderr).toMatch(/^line 3: personId: was erased on lawful request/);
    expect((await erase(edda.personId, "edda voss\n")).status).toBe(2);
  });
});

describe("a trail that somebody tampered with", { timeout }, () => {
  it("is said to be, with the first bad line, and status 1", async () => {
    const database = new Database(recordFile(data));
    database.exec("drop trigger audit_line_refuses_delete; delete from audit_line where seq = 2");
    database.close();
    expect(await audit("verify")).toEqual({
      status: 1,
      stdout: "",
      stderr: "Line 2 was removed. The lines before it hold.\n",
    });
  });
});
