import { createHash } from "node:crypto";
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Bench, contentOf, keptRecord, newBench } from "../../../test/record/kept.ts";
import { newRecoveryKey } from "../keys/index.ts";
import type { OpenRecord } from "../open/index.ts";
import { writingFault } from "./fault.ts";
import { backUp, restore } from "./index.ts";
import { writeSealed } from "./sealedFile.ts";

let bench: Bench;
let record: OpenRecord;
let file: string;
beforeAll(async () => {
  bench = newBench();
  ({ record } = await keptRecord(bench));
  ({ file } = await backUp(record, { to: bench.path("backup") }));
});
afterAll(async () => {
  await record.close();
  bench.remove();
});

const keyFile = () => bench.keyFile;

describe("a backup that cannot be trusted is refused, and nothing is changed", () => {
  const standing = () => bench.path("standing");
  beforeAll(() => restore({ from: file, to: { dataDir: standing() }, keyFile: keyFile() }));

  const refusal = async (from: string, options: { recoveryKey?: string } = {}) => {
    const before = contentOf(standing());
    const failed = await restore({
      from,
      to: { dataDir: standing() },
      replace: true,
      keyFile: keyFile(),
      ...options,
    }).then(
      () => {
        throw new Error("it was restored");
      },
      (error: Error & { code: string }) => error,
    );
    expect(contentOf(standing())).toEqual(before);
    expect(failed.message).not.toMatch(/AGE-SECRET|at .*\.ts|undefined/);
    return failed;
  };
  const changed = (name: string, change: (bytes: Buffer) => Uint8Array) => {
    const path = bench.path(`changed-${name}`);
    writeFileSync(path, change(readFileSync(file)));
    return path;
  };

  it.each([0, 0.01, 0.2, 0.5, 0.9, 0.9999])("with one bit flipped (at %d of its length)", async (at) => {
    const from = changed(`bit-${at}`, (bytes) => {
      bytes[Math.floor(at * bytes.length)]! ^= 1;
      return bytes;
    });
    expect((await refusal(from)).code).toMatch(/damaged|wrongKey/);
  });

  it.each([0, 10, 200, 0.5, -65_536, -1])("cut short (%d)", async (length) => {
    const from = changed(`cut-${length}`, (bytes) =>
      bytes.subarray(0, length > 0 && length < 1 ? bytes.length * length : length),
    );
    expect((await refusal(from)).code).toMatch(/damaged/);
  });

  it("sealed for another key", async () => {
    const other = (await newRecoveryKey()).identity;
    const { code, message } = await refusal(file, { recoveryKey: other });
    expect(code).toBe("wrongKey");
    expect(message).toContain("--recovery-key");
  });

  it("of another record", async () => {
    const source = newBench();
    const { record: other } = await keptRecord({ ...source });
    const made = await backUp(other, { to: source.path("backup") });
    await other.close();
    const before = contentOf(standing());
    const into = restore({
      from: made.file,
      to: { dataDir: standing() },
      replace: true,
      keyFile: source.keyFile,
    });
    await expect(into).rejects.toMatchObject({ code: "anotherRecord" });
    expect(contentOf(standing())).toEqual(before);
    source.remove();
  });

  it("that is none: a text, an empty file, a folder, nothing at all", async () => {
    expect(await refusal(changed("text", () => Buffer.from("hello")))).toMatchObject({ code: "damaged" });
    mkdirSync(bench.path("a folder"), { recursive: true });
    expect(await refusal(bench.path("a folder"))).toMatchObject({ code: "noBackup" });
    expect(await refusal(bench.path("not there"))).toMatchObject({ code: "noBackup" });
  });

  it.each([
    ["something else than a backup", ['{"hello":1}'], "notABackup"],
    ["nothing", [], "notABackup"],
    ["a newer format", ['{"format":"roundel-backup","version":2}'], "newerProgram"],
    [
      "a migration that is not known",
      [(header: object) => ({ ...header, migrations: ["2030-01-01-x"] })],
      "newerProgram",
    ],
    ["a row too few", [null, { table: "mark", columns: [["name", "text"]] }, ["a"]], "damaged"],
    [
      "a table that is not known",
      [
        (header: object) => ({ ...header, rows: { sqlite_master: 1 } }),
        { table: "sqlite_master", columns: [["sql", "text"]] },
        ["x"],
      ],
      "damaged",
    ],
    [
      "a column that is not known",
      [
        (header: object) => ({ ...header, rows: { mark: 1 } }),
        { table: "mark", columns: [['x") values (1); --', "text"]] },
        ["x"],
      ],
      "damaged",
    ],
  ])("rightly sealed, with %s in it", async (name, lines, code) => {
    const { recipients, recordId } = await record.keys();
    const header = {
      format: "roundel-backup",
      version: 1,
      recordId,
      madeAt: new Date().toISOString(),
      programVersion: "0",
      migrations: ["2026-11-25-entries"],
      clinics: [],
      lastCursor: 0,
      rows: { mark: 2 },
    };
    const from = bench.path(`sealed-${name}`);
    const texts = lines.map((line, at) => {
      const value = typeof line === "function" ? line(header) : at === 0 && line === null ? header : line;
      return typeof value === "string" ? value : JSON.stringify(value);
    });
    const hash = createHash("sha256").update(`${texts[2]}\n`).digest("hex");
    const table = (lines[1] as { table?: string } | undefined)?.table;
    if (table) texts.push(JSON.stringify({ end: { [table]: { rows: 1, sha256: hash } } }));
    async function* given() {
      for (const text of texts) yield `${text}\n`;
    }
    await writeSealed(from, given(), { recipients });
    expect(await refusal(from)).toMatchObject({ code });
  });

  it("when its key file is not at hand, before anything is written", async () => {
    const dataDir = bench.path("new");
    const copy = bench.path("elsewhere.key");
    copyFileSync(keyFile(), copy);
    const there = process.env.XDG_CONFIG_HOME;
    process.env.XDG_CONFIG_HOME = bench.path("no-settings");
    try {
      await expect(restore({ from: file, to: { dataDir } })).rejects.toMatchObject({ code: "wrongKey" });
    } finally {
      if (there === undefined) delete process.env.XDG_CONFIG_HOME;
      else process.env.XDG_CONFIG_HOME = there;
    }
    expect(existsSync(dataDir)).toBe(false);
  });
});

describe("a disk that cannot be written to", () => {
  it.each([
    [{ code: "ENOSPC", syscall: "write" }, /the disk is full/],
    [{ code: "SQLITE_FULL" }, /the disk is full/],
    [{ code: "EROFS", syscall: "open" }, /may not be written to/],
    [{ code: "EIO", syscall: "fsync" }, /the system says EIO/],
  ])("is told in words: %j", (error, sentence) => {
    expect(writingFault(error, "/media/backup")).toMatchObject({
      code: "cannotWrite",
      message: expect.stringMatching(sentence),
    });
  });

  it("is no excuse for other failures", () => {
    const error = new Error("a mistake of ours");
    expect(writingFault(error, "/media/backup")).toBe(error);
  });
});
