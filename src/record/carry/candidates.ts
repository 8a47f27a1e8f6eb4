import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { keyFolder, readKeyFile } from "../keys/index.ts";
import { CarryFault } from "./fault.ts";

/** How a backup is to be opened. */
export interface OpenedBy {
  /** A key file; without one, those that lie where key files usually do. */
  keyFile?: string;
  /** The recovery key, which opens it alone. */
  recoveryKey?: string;
}

/**
 * Secret keys that may open a backup: it does not say whose it is before it is open.
 * @throws {KeyFault} @throws {CarryFault} `wrongKey` when there is none
 */
export async function identitiesFor({ keyFile, recoveryKey }: OpenedBy): Promise<string[]> {
  if (recoveryKey !== undefined) return [recoveryKey];
  const named = keyFile ?? process.env.ROUNDEL_KEY_FILE;
  const files = named ? [named] : await usualFiles();
  const held = await Promise.all(files.map(readKeyFile));
  const identities = held.flatMap((file) =>
    file ? [file.working, ...file.retired].map(({ identity }) => identity) : [],
  );
  if (identities.length > 0) return identities;
  throw new CarryFault(
    "wrongKey",
    `There is no key file ${named ?? `in ${keyFolder()}`}. Name it with --key-file, or give the recovery key with --recovery-key.`,
  );
}

async function usualFiles(): Promise<string[]> {
  const names = await readdir(keyFolder()).catch(() => []);
  return names.filter((name) => name.endsWith(".key")).map((name) => join(keyFolder(), name));
}
