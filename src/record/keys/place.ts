import { realpath } from "node:fs/promises";
import { homedir } from "node:os";
import { dirname, join, relative, resolve } from "node:path";
import { KeyFault } from "./fault.ts";

/** The folder for key files of this account of the machine. */
export function keyFolder(): string {
  return join(process.env.XDG_CONFIG_HOME || join(homedir(), ".config"), "roundel");
}

/** Where the key file of a record is: where it was named, or in the account's own settings under the record's id. */
export function keyFilePlace(recordId: string, named?: string): string {
  return resolve(named || process.env.ROUNDEL_KEY_FILE || join(keyFolder(), `${recordId}.key`));
}

/** Whoever takes the data folder must not have the key with it. @throws {KeyFault} */
export async function refuseInside(dataDir: string, keyFile: string): Promise<void> {
  const [data, folder] = await Promise.all([realOf(resolve(dataDir)), realOf(dirname(resolve(keyFile)))]);
  const way = relative(data, folder);
  if (way.startsWith("..") || resolve(way) === way) return;
  throw new KeyFault(
    "keyFileInData",
    `The key file ${keyFile} would lie in the data folder, where a thief of the data finds it. Name a place outside.`,
  );
}

/** The true path of a folder that need not be there yet. */
async function realOf(path: string): Promise<string> {
  const found = await realpath(path).catch(() => null);
  if (found !== null || dirname(path) === path) return found ?? path;
  return join(await realOf(dirname(path)), relative(dirname(path), path));
}
