import { identityToRecipient } from "age-encryption";
import { KeyFault } from "./fault.ts";

const prefix = "AGE-SECRET-KEY-1";
/** Letters of a Bech32 text, in capitals as age writes a secret key. @source age-encryption.org/v1, BIP 173 */
const shape = /^AGE-SECRET-KEY-1[QPZRY9X8GF2TVDW0S3JN54KHCE6MUA7L]{58}$/;

export function looksLikeKey(text: string): boolean {
  return shape.test(text);
}

/** A key as a person copies it from paper: in groups, over several lines, in small letters. @throws {KeyFault} */
export async function readKey(text: string): Promise<string> {
  const key = text.replace(/\s+/g, "").toUpperCase();
  const notAKey = (what: string) =>
    new KeyFault(
      "notAKey",
      `${what} It begins with ${prefix}, then come 58 letters and figures; spaces and line ends do not matter.`,
    );
  if (key === "") throw notAKey("No key was given.");
  if (!shape.test(key)) throw notAKey("This is no key of Roundel.");
  return identityToRecipient(key).then(
    () => key,
    () => {
      throw notAKey("A letter of this key is wrong: its check letters do not agree.");
    },
  );
}

/** A key for paper: its beginning, then groups of five. */
export function groupsOf(key: string): string[] {
  return [prefix, ...(key.slice(prefix.length).match(/.{1,5}/g) ?? [])];
}
