import {
  type AuthenticationResponseJSON,
  generateAuthenticationOptions,
  generateRegistrationOptions,
  type RegistrationResponseJSON,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
} from "@simplewebauthn/server";
import { parse as bytesOfUuid } from "uuid";
import { z } from "zod";
import type { Account, AccountStore, PasskeyKey, Purpose } from "../../record/accounts/index.ts";
import { Refusal } from "../errors/refusal.ts";
import type { Site } from "./site.ts";

/** A passkey's answer as a browser sends it; the library reads the rest of it. */
export const passkeyAnswer = z
  .looseObject({
    id: z.string().max(1500),
    rawId: z.string().max(1500),
    type: z.literal("public-key"),
    response: z.looseObject({ clientDataJSON: z.string().max(20_000) }),
    clientExtensionResults: z.looseObject({}),
  })
  .describe("What the browser's passkey interface answered, as JSON (WebAuthn Level 3)");
type Answer = z.infer<typeof passkeyAnswer>;

/** What a browser's passkey interface is called with (WebAuthn Level 3, as JSON). */
export const browserOptions = z.looseObject({ challenge: z.string() });
export type BrowserOptions = z.infer<typeof browserOptions>;

export const passkeyName = z.string().trim().min(1).max(80);

/** Who a passkey is made for. */
export interface Owner {
  accountId: string;
  signInName: string;
  displayName: string;
}

/** Asks a browser for a new passkey. It names its owner itself and proves that the owner is present. */
export async function newPasskeyRequest(
  accounts: AccountStore,
  site: Site,
  purpose: Extract<Purpose, "register" | "join">,
  { accountId, signInName, displayName }: Owner,
  existing: readonly PasskeyKey[],
  nowMs: number,
): Promise<BrowserOptions> {
  const options = await generateRegistrationOptions({
    rpName: "Roundel",
    rpID: rpIdOf(site),
    userID: new Uint8Array(bytesOfUuid(accountId)),
    userName: signInName,
    userDisplayName: displayName,
    attestationType: "none",
    excludeCredentials: existing.map(({ credentialId, transports }) => ({ id: credentialId, transports })),
    authenticatorSelection: { residentKey: "required", userVerification: "required" },
  });
  await accounts.challenges.give(options.challenge, purpose, accountId, nowMs);
  return { ...options };
}

/** Reads a new passkey for an account. @throws {Refusal} `passkeyFailed` */
export async function readNewPasskey(
  accounts: AccountStore,
  site: Site,
  purpose: Extract<Purpose, "register" | "join">,
  { accountId, clinicId }: Pick<Account, "accountId" | "clinicId">,
  answer: Answer,
  nowMs: number,
): Promise<PasskeyKey> {
  const rpId = rpIdOf(site);
  const read = await refusing(() =>
    verifyRegistrationResponse({
      response: answer as unknown as RegistrationResponseJSON,
      expectedChallenge: async (challenge) => {
        const given = await accounts.challenges.take(challenge, [purpose], nowMs);
        return given?.aboutId === accountId;
      },
      expectedOrigin: site.origin,
      expectedRPID: rpId,
      requireUserVerification: true,
    }),
  );
  if (!read.verified) throw new Refusal("passkeyFailed");
  const { credential } = read.registrationInfo;
  return {
    credentialId: credential.id,
    accountId,
    clinicId,
    rpId,
    publicKey: Buffer.from(credential.publicKey).toString("base64url"),
    counter: credential.counter,
    transports: credential.transports ?? [],
  };
}

/**
 * Asks a browser for a passkey that it has. Where nobody is known yet, no account's passkeys are named: they would tell
 * a stranger which names exist.
 */
export async function passkeyRequest(
  accounts: AccountStore,
  site: Site,
  purpose: Extract<Purpose, "signIn" | "secondFactor" | "confirm">,
  account: Account | null,
  nowMs: number,
): Promise<BrowserOptions> {
  const rpID = rpIdOf(site);
  const keys = account ? await accounts.passkeys.keys(account, rpID) : [];
  const options = await generateAuthenticationOptions({
    rpID,
    userVerification: "required",
    allowCredentials: keys.map(({ credentialId, transports }) => ({ id: credentialId, transports })),
  });
  await accounts.challenges.give(options.challenge, purpose, account?.accountId ?? null, nowMs);
  return { ...options };
}

/**
 * Whose passkey answered.
 * @throws {Refusal} `passkeyFailed` where it answers no challenge of these purposes, or is nobody's
 */
export async function readPasskey(
  accounts: AccountStore,
  site: Site,
  purposes: readonly Purpose[],
  answer: Answer,
  nowMs: number,
): Promise<PasskeyKey> {
  const rpId = rpIdOf(site);
  const key = await accounts.passkeys.byId(answer.id);
  if (!key || key.rpId !== rpId) throw new Refusal("passkeyFailed");
  const read = await refusing(() =>
    verifyAuthenticationResponse({
      response: answer as unknown as AuthenticationResponseJSON,
      expectedChallenge: async (challenge) => {
        const given = await accounts.challenges.take(challenge, purposes, nowMs);
        return given !== null && (given.aboutId === null || given.aboutId === key.accountId);
      },
      expectedOrigin: site.origin,
      expectedRPID: rpId,
      requireUserVerification: true,
      credential: {
        id: key.credentialId,
        publicKey: new Uint8Array(Buffer.from(key.publicKey, "base64url")),
        counter: key.counter,
      },
    }),
  );
  if (!read.verified) throw new Refusal("passkeyFailed");
  await accounts.passkeys.used(key, read.authenticationInfo.newCounter, nowMs);
  return key;
}

function rpIdOf({ rpId }: Site): string {
  if (rpId === null) throw new Refusal("noPasskeysHere");
  return rpId;
}

/** The library throws for whatever is wrong with an answer; all of it is the sender's. */
async function refusing<T>(read: () => Promise<T>): Promise<T> {
  try {
    return await read();
  } catch {
    throw new Refusal("passkeyFailed");
  }
}
