import { isConnectionLost, isLostAgainstAnother, isWaitedTooLong } from "./postgres/failures.ts";

/**
 * What is wrong with the database and not with the request. The first two pass by themselves; for the others somebody
 * has to do something.
 */
export type DatabaseTrouble = "busy" | "databaseAway" | "diskFull" | "notWritable" | "recordDamaged";

/**
 * By the beginning of the code. @source sqlite.org/rescode.html; PostgreSQL, appendix A; errno(3)
 */
const byCode: [beginning: string, trouble: DatabaseTrouble][] = [
  ["SQLITE_BUSY", "busy"],
  ["SQLITE_FULL", "diskFull"],
  ["SQLITE_READONLY", "notWritable"],
  ["SQLITE_CANTOPEN", "notWritable"],
  ["SQLITE_CORRUPT", "recordDamaged"],
  ["SQLITE_NOTADB", "recordDamaged"],
  // A disk that fails while it reads or writes: what lies on it cannot be relied on.
  ["SQLITE_IOERR", "recordDamaged"],
  ["53100", "diskFull"],
  ["25006", "notWritable"],
  ["XX001", "recordDamaged"],
  ["XX002", "recordDamaged"],
  ["58030", "recordDamaged"],
  ["ENOSPC", "diskFull"],
  ["EDQUOT", "diskFull"],
  ["EROFS", "notWritable"],
];

/** The trouble behind an error of either engine; null for any other. */
export function databaseTrouble(error: unknown): DatabaseTrouble | null {
  if (isWaitedTooLong(error) || isLostAgainstAnother(error)) return "busy";
  if (isConnectionLost(error)) return "databaseAway";
  const { code } = (error ?? {}) as { code?: unknown };
  if (typeof code !== "string") return null;
  return byCode.find(([beginning]) => code.startsWith(beginning))?.[1] ?? null;
}
