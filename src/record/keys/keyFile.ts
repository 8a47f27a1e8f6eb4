import { Buffer } from "node:buffer";
import { mkdir, readFile, stat } from "node:fs/promises";
import { dirname } from "node:path";
import { writeWholeFile } from "../wholeFile/index.ts";
import { KeyFault } from "./fault.ts";
import { looksLikeKey } from "./keyText.ts";

/** What a key file holds. Times are ISO 8601, for a person to read. */
export interface KeyFile {
  recordId: string;
  /** 32 bytes that other keys are derived from; they outlive every rotation. */
  secret: Uint8Array;
  recovery: RecoveryKey | null;
  working: WorkingKey;
  /** Keys that were in force before, latest first: older backups open with them. */
  retired: (WorkingKey & { retiredAt: string })[];
}

export interface WorkingKey {
  identity: string;
  madeAt: string;
}

/** The public half of the recovery key; the secret half is on paper alone. */
export interface RecoveryKey {
  recipient: string;
  madeAt: string;
  /** When the paper was last seen to open a backup. */
  provedAt: string | null;
}

const title = "# Roundel key file 1: secret. Keep a copy of it, away from the data and from the backups.";
const time = String.raw`\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{3})?Z`;
const lines = {
  record: /^# record ([0-9a-f-]{36})$/,
  derivation: /^# derivation ([A-Za-z0-9_-]{43})$/,
  recovery: new RegExp(`^# recovery (age1[a-z0-9]{58}) made (${time})(?: proved (${time}))?$`),
  working: new RegExp(`^# working, made (${time})$`),
  retired: new RegExp(`^# retired, made (${time}), until (${time})$`),
};

/**
 * The file's text: an identity file as the age tools read it, so that a backup opens without Roundel; the rest stands
 * in its comments.
 */
export function keyFileText({ recordId, secret, recovery, working, retired }: KeyFile): string {
  const proved = recovery?.provedAt ? ` proved ${recovery.provedAt}` : "";
  return [
    title,
    `# record ${recordId}`,
    `# derivation ${Buffer.from(secret).toString("base64url")}`,
    ...(recovery ? [`# recovery ${recovery.recipient} made ${recovery.madeAt}${proved}`] : []),
    `# working, made ${working.madeAt}`,
    working.identity,
    ...retired.flatMap(({ identity, madeAt, retiredAt }) => [
      `# retired, made ${madeAt}, until ${retiredAt}`,
      identity,
    ]),
    "",
  ].join("\n");
}

/** @throws {KeyFault} that names the line, never what stands in it */
export function parseKeyFile(text: string, file: string): KeyFile {
  const rows = text.split(/\r?\n/);
  let at = 0;
  const wrong = (): never => {
    throw new KeyFault(
      "keyFileUnreadable",
      `The key file ${file} is damaged or none of Roundel's: line ${at + 1} is not what belongs there. Put the copy of it back that was made when it was new.`,
    );
  };
  const matched = (shape: RegExp): RegExpExecArray => {
    const match = shape.exec(rows[at] ?? "") ?? wrong();
    at += 1;
    return match;
  };
  const identity = (): string => {
    const row = rows[at] ?? "";
    if (!looksLikeKey(row)) wrong();
    at += 1;
    return row;
  };
  if (rows[at] !== title) wrong();
  at += 1;
  const recordId = matched(lines.record)[1]!;
  const secret = new Uint8Array(Buffer.from(matched(lines.derivation)[1]!, "base64url"));
  let recovery: RecoveryKey | null = null;
  if (lines.recovery.test(rows[at] ?? "")) {
    const [, recipient, madeAt, provedAt] = matched(lines.recovery);
    recovery = { recipient: recipient!, madeAt: madeAt!, provedAt: provedAt ?? null };
  }
  const madeAt = matched(lines.working)[1]!;
  const working = { identity: identity(), madeAt };
  const retired: KeyFile["retired"] = [];
  while (at < rows.length && rows[at] !== "") {
    const [, made, until] = matched(lines.retired);
    retired.push({ identity: identity(), madeAt: made!, retiredAt: until! });
  }
  if (rows.slice(at).some((row) => row !== "")) wrong();
  return { recordId, secret, recovery, working, retired };
}

/**
 * Reads a key file; null when there is none.
 * @throws {KeyFault} when others may read it, or it is not a key file
 */
export async function readKeyFile(file: string): Promise<KeyFile | null> {
  const found = await stat(file).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT" || error.code === "ENOTDIR") return null;
    throw cannotRead(file);
  });
  if (!found) return null;
  if (!found.isFile() || found.size > largestBytes) throw cannotRead(file);
  // Windows keeps rights elsewhere; there the mode says nothing.
  if (process.platform !== "win32" && (found.mode & 0o077) !== 0) {
    throw new KeyFault(
      "keyFileReadable",
      `Others on this machine may read the key file ${file}. Run chmod 600 on it; if somebody may have read it, make a new key with roundel keys rotate.`,
    );
  }
  const text = await readFile(file, "utf8").catch(() => {
    throw cannotRead(file);
  });
  return parseKeyFile(text, file);
}

/** Some hundred rotations; a larger file is something else. */
const largestBytes = 64 * 1024;

function cannotRead(file: string): KeyFault {
  return new KeyFault("keyFileUnreadable", `The key file ${file} cannot be read as a file.`);
}

/** Writes a key file whole; an `onlyNew` one never over another. */
export async function writeKeyFile(
  file: string,
  held: KeyFile,
  { onlyNew = false }: { onlyNew?: boolean } = {},
): Promise<void> {
  await mkdir(dirname(file), { recursive: true, mode: 0o700 });
  await writeWholeFile(file, [keyFileText(held)], { onlyNew });
}
