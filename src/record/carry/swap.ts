import { existsSync } from "node:fs";
import { chmod, link, open, rename, rm } from "node:fs/promises";
import { dirname } from "node:path";
import Database from "better-sqlite3";
import { syncFolder } from "../wholeFile/index.ts";
import { CarryFault } from "./fault.ts";

/** Files that SQLite keeps beside a database while it is open, or after a crash. */
const besides = ["-wal", "-shm"] as const;

/**
 * Puts a finished database in the place of a record. The old one keeps its own name until the new one takes it, and
 * is there afterwards under another: at no moment is there none.
 * @returns where the old one is now; null where there was none
 * @throws {CarryFault} `recordInUse`
 */
export async function swapIn(made: string, file: string, nowMs: number): Promise<string | null> {
  await chmod(made, 0o600);
  const handle = await open(made, "r+");
  await handle.sync();
  await handle.close();
  const aside = `${file}.replaced-${new Date(nowMs).toISOString().replace(/[:.]/g, "")}`;
  const wasThere = existsSync(file);
  if (wasThere) {
    closeUp(file);
    await giveSecondName(file, aside);
  }
  // A log that was left would be taken for one of the new database.
  for (const beside of besides) {
    if (existsSync(file + beside)) await rename(file + beside, aside + beside);
  }
  await rename(made, file);
  await syncFolder(dirname(file));
  return wasThere ? aside : null;
}

/** Some file systems have no second names (FAT, some network shares): there the record is without one for a moment. */
async function giveSecondName(file: string, aside: string): Promise<void> {
  try {
    await link(file, aside);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? "";
    if (!["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS"].includes(code)) throw error;
    await rename(file, aside);
  }
}

/**
 * Brings everything of a record into its one file, which needs it for oneself. One that is too damaged for it is left
 * as it is.
 */
function closeUp(file: string): void {
  try {
    const database = new Database(file, { timeout: 0 });
    try {
      if (database.pragma("journal_mode = DELETE", { simple: true }) !== "delete") throw inUse(file);
    } finally {
      database.close();
    }
  } catch (error) {
    if (error instanceof CarryFault) throw error;
    const code = (error as { code?: string }).code ?? "";
    if (code.startsWith("SQLITE_BUSY") || code.startsWith("SQLITE_LOCKED")) throw inUse(file);
    if (!code.startsWith("SQLITE_")) throw error;
  }
}

function inUse(file: string): CarryFault {
  return new CarryFault(
    "recordInUse",
    `The record ${file} is open in another process. Stop the bench first; nothing was changed.`,
  );
}

/** Removes a database that was not finished. */
export async function removeUnfinished(made: string): Promise<void> {
  for (const suffix of ["", "-journal", ...besides]) await rm(made + suffix, { force: true });
}
