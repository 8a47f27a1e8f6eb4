import type { FastifyRequest } from "fastify";
import { z } from "zod";
import type { Account } from "../../../record/accounts/index.ts";
import { confirmed, countedAddress, signedInOf, signIn, siteOf, throttled } from "../../access/index.ts";
import {
  browserOptions,
  newPasskeyRequest,
  passkeyAnswer,
  passkeyName,
  passkeyRequest,
  readNewPasskey,
  readPasskey,
} from "../../access/passkeys.ts";
import type { Bench, Workings } from "../../bench.ts";
import { Refusal } from "../../errors/refusal.ts";
import { emptyBody, ownPasskeys, sessionSchema } from "../../schemas.ts";
import { sessionOf } from "../../sessionOf.ts";

const answered = z.strictObject({ response: passkeyAnswer });
const listed = z.object({ passkeys: ownPasskeys });

/** Signing in with a passkey, alone or after the password; confirming with one; one's own passkeys. */
export function passkeyRoutes(bench: Bench, workings: Workings): void {
  const { accounts, now, publicUrl } = workings;
  const options = { body: emptyBody, response: { 200: browserOptions } };

  bench.post(
    "/api/sign-in/passkey/options",
    { schema: { summary: "What to ask the browser for, to sign in with a passkey", ...options } },
    (request) => passkeyRequest(accounts, siteOf(request, publicUrl), "signIn", null, now()),
  );

  bench.post(
    "/api/sign-in/passkey",
    {
      schema: {
        summary: "Sign in with a passkey, alone or as the second factor",
        body: answered,
        response: { 200: sessionSchema },
      },
    },
    async (request, reply) => {
      const account = await throttled(workings, [countedAddress(request)], "passkeyFailed", async () => {
        const site = siteOf(request, publicUrl);
        const key = await readPasskey(
          accounts,
          site,
          ["signIn", "secondFactor"],
          request.body.response,
          now(),
        );
        return entitled(await accounts.open(key.clinicId, key.accountId));
      });
      await signIn(workings, account, request, reply);
      return sessionOf(request, workings);
    },
  );

  bench.post(
    "/api/confirm/passkey/options",
    { schema: { summary: "What to ask the browser for, to prove again who one is", ...options } },
    (request) =>
      passkeyRequest(accounts, siteOf(request, publicUrl), "confirm", signedInOf(request).account, now()),
  );

  bench.post(
    "/api/confirm/passkey",
    {
      schema: {
        summary: "Prove with a passkey again who one is",
        body: answered,
        response: { 200: z.object({ strongUntilMs: z.number() }) },
      },
    },
    async (request, reply) => {
      const { account } = signedInOf(request);
      const site = siteOf(request, publicUrl);
      const key = await readPasskey(accounts, site, ["confirm"], request.body.response, now());
      if (key.accountId !== account.accountId) throw new Refusal("passkeyFailed");
      return confirmed(workings, request, reply);
    },
  );

  bench.post(
    "/api/account/passkeys/options",
    { schema: { summary: "What to ask the browser for, to make a passkey", ...options } },
    async (request) => {
      const { account } = signedInOf(request);
      const site = siteOf(request, publicUrl);
      const existing = site.rpId === null ? [] : await accounts.passkeys.keys(account, site.rpId);
      return newPasskeyRequest(accounts, site, "register", account, existing, now());
    },
  );

  bench.post(
    "/api/account/passkeys",
    {
      schema: {
        summary: "Keep the passkey that the browser made",
        body: z.strictObject({ name: passkeyName, response: passkeyAnswer }),
        response: { 201: listed },
      },
    },
    async (request, reply) => {
      const { account } = signedInOf(request);
      const { name, response } = request.body;
      const site = siteOf(request, publicUrl);
      const key = await readNewPasskey(accounts, site, "register", account, response, now());
      await accounts.passkeys.add(key, name, now());
      return reply.code(201).send({ passkeys: await passkeysOf(workings, request) });
    },
  );

  bench.delete(
    "/api/account/passkeys/:credentialId",
    {
      schema: {
        summary: "Take one of one's own passkeys away",
        params: z.object({ credentialId: z.string().max(1500) }),
        body: emptyBody,
        response: { 200: listed },
      },
    },
    async (request) => {
      await accounts.passkeys.remove(signedInOf(request).account, request.params.credentialId);
      return { passkeys: await passkeysOf(workings, request) };
    },
  );
}

/** One's own passkeys, and whether each works at the address that was asked. */
export async function passkeysOf({ accounts, publicUrl }: Workings, request: FastifyRequest) {
  const { rpId } = siteOf(request, publicUrl);
  const own = await accounts.passkeys.list(signedInOf(request).account);
  return own.map(({ rpId: madeFor, ...passkey }) => ({ ...passkey, here: madeFor === rpId }));
}

/** The home log's accounts and the demo's are nobody at the bench. */
function entitled(account: Account | null): Account | null {
  const roles: readonly string[] = ["lead", "nurse", "reader"];
  return account && !account.demo && roles.includes(account.role) ? account : null;
}
