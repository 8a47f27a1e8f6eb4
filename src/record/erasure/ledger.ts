import { type FileHandle, mkdir, open, readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { z } from "zod";
import { syncFolder } from "../wholeFile/index.ts";
import type { Tombstone } from "./tables.ts";

const tombstone = z.object({
  clinicId: z.uuid(),
  personId: z.uuid(),
  erasedMs: z.number().int(),
  accountId: z.string().nullable(),
});

/** Where the ledger of a record lies: beside its key file, out of reach of a backup of the data. */
export function ledgerPlace(keyFile: string, recordId: string): string {
  return join(dirname(keyFile), `${recordId}.erased.jsonl`);
}

/**
 * The tombstones of a record once more, outside its database: a backup from before an erasure brings the person back,
 * and the ledger takes them away again. Only ever added to.
 */
export class Ledger {
  readonly file: string;

  constructor(file: string) {
    this.file = file;
  }

  /** A last line that a crash cut short stands in the database and is written again. */
  async read(): Promise<Tombstone[]> {
    const text = await readFile(this.file, "utf8").catch((error: NodeJS.ErrnoException) => {
      if (error.code === "ENOENT") return "";
      throw error;
    });
    const lines = text.split("\n");
    lines.pop();
    return lines.flatMap((line, index) => (line === "" ? [] : [this.parse(line, index + 1)]));
  }

  /** On disk once it resolves. */
  async add(tombstones: readonly Tombstone[]): Promise<void> {
    if (tombstones.length === 0) return;
    await mkdir(dirname(this.file), { recursive: true, mode: 0o700 });
    const file = await open(this.file, "a+", 0o600);
    try {
      await file.truncate(await endOfWholeLines(file));
      await file.write(tombstones.map((one) => `${JSON.stringify(one)}\n`).join(""));
      await file.sync();
    } finally {
      await file.close();
    }
    await syncFolder(dirname(this.file));
  }

  private parse(line: string, number: number): Tombstone {
    try {
      return tombstone.parse(JSON.parse(line));
    } catch {
      throw new Error(
        `The ledger of erasures ${this.file} is damaged: line ${number} is not what belongs there.`,
      );
    }
  }
}

/** Where a line that a crash cut short begins. */
async function endOfWholeLines(file: FileHandle): Promise<number> {
  return (await file.readFile()).lastIndexOf(0x0a) + 1;
}
