import { randomBytes } from "node:crypto";
import { hash, parseOptions, verify } from "@node-rs/argon2";
import { AtMost } from "./atMost.ts";
import { argon2idParameters as parameters } from "./parameters.ts";

/** Each takes 64 MiB: a crowd of sign-ins must wait and not use up the machine. */
const atOnce = new AtMost(2);

const options = {
  // The package's names for these are compile-time constants of its own; by number they are argon2id and 1.3.
  algorithm: 2,
  version: 1,
  memoryCost: parameters.memoryKib,
  timeCost: parameters.passes,
  parallelism: parameters.lanes,
  outputLen: parameters.tagBytes,
} as const;

/** The password as a PHC string, which carries its own parameters and salt. */
export function hashPassword(password: string): Promise<string> {
  return atOnce.run(() => hash(normal(password), { ...options, salt: randomBytes(parameters.saltBytes) }));
}

/** Whether the password is the one; takes as long for an account that is not there. */
export async function isPassword(kept: string | null, password: string): Promise<boolean> {
  const isIt = await atOnce.run(async () => verify(kept ?? (await nobodys()), normal(password)));
  return isIt && kept !== null;
}

/** Whether a hash was made with other parameters than today's. */
export function isOutdated(kept: string): boolean {
  const was = parseOptions(kept);
  return (Object.keys(options) as (keyof typeof options)[]).some((key) => was[key] !== options[key]);
}

/** Keyboards compose letters in different ways. */
function normal(password: string): string {
  return password.normalize("NFKC");
}

let nobody: Promise<string> | null = null;

/** A hash that no password has, with the same parameters. */
function nobodys(): Promise<string> {
  nobody ??= hash(randomBytes(32), options);
  return nobody;
}
