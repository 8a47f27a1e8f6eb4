import { z } from "zod";
import {
  type Account,
  hashPassword,
  isOutdated,
  isPassword,
  signInKey,
} from "../../../record/accounts/index.ts";
import { confirmed, countedFor, signedInOf, signIn, siteOf, throttled } from "../../access/index.ts";
import { browserOptions, passkeyRequest } from "../../access/passkeys.ts";
import type { Bench, Workings } from "../../bench.ts";
import { Refusal } from "../../errors/refusal.ts";
import { emptyBody, sessionSchema } from "../../schemas.ts";
import { sessionOf } from "../../sessionOf.ts";

const tried = z.string().max(1000);
const credentials = z.strictObject({ signInName: tried, password: tried });
const passkeyNeeded = z.object({
  passkeyNeeded: z.literal(true),
  options: browserOptions,
});
const strongUntil = z.object({ strongUntilMs: z.number() });

/** Signing in and out with a password, and proving again who one is. */
export function signInRoutes(bench: Bench, workings: Workings): void {
  const { accounts, cookies, now, publicUrl } = workings;

  bench.post(
    "/api/sign-in",
    {
      schema: {
        summary: "Sign in with name and password; where the account asks for both, a passkey comes next",
        body: credentials,
        response: { 200: z.union([sessionSchema, passkeyNeeded]) },
      },
    },
    async (request, reply) => {
      const { signInName, password } = request.body;
      const found = await accounts.forSignIn(signInName, "bench");
      const counted = await countedFor(workings, request, signInKey(signInName), found?.account ?? null);
      const account = await throttled(workings, counted, "signInFailed", async () => {
        const isRight = await isPassword(found?.passwordHash ?? null, password);
        return isRight ? found!.account : null;
      });
      await rehashed(account, found!.passwordHash!, password);
      if (account.secondFactor) {
        const site = siteOf(request, publicUrl);
        const options = await passkeyRequest(accounts, site, "secondFactor", account, now());
        return { passkeyNeeded: true as const, options };
      }
      await signIn(workings, account, request, reply);
      return sessionOf(request, workings);
    },
  );

  bench.post(
    "/api/sign-out",
    { schema: { summary: "End this session", body: emptyBody, response: { 204: z.void() } } },
    async (request, reply) => {
      const { account, sessionId } = signedInOf(request);
      await accounts.sessions.end(account, sessionId);
      cookies.clearSession(reply);
      return reply.code(204).send();
    },
  );

  bench.post(
    "/api/sign-out-everywhere",
    { schema: { summary: "End every session of one's own", body: emptyBody, response: { 204: z.void() } } },
    async (request, reply) => {
      await accounts.sessions.endAll(signedInOf(request).account);
      cookies.clearSession(reply);
      return reply.code(204).send();
    },
  );

  bench.post(
    "/api/confirm",
    {
      schema: {
        summary: "Prove again who one is, for what needs a recent sign-in",
        body: z.strictObject({ password: tried }),
        response: { 200: strongUntil },
      },
    },
    async (request, reply) => {
      const { account, sessionId } = signedInOf(request);
      if (account.secondFactor) throw new Refusal("passkeyNeeded");
      // Whoever found an open session guesses against that session alone.
      await throttled(workings, [{ kind: "known", parts: [sessionId] }], "signInFailed", async () => {
        const kept = await accounts.passwordHash(account);
        return (await isPassword(kept, request.body.password)) || null;
      });
      return confirmed(workings, request, reply);
    },
  );

  /** A hash that was made with weaker parameters is replaced while the password is at hand. */
  async function rehashed(account: Account, kept: string, password: string): Promise<void> {
    if (isOutdated(kept)) await accounts.setPassword(account, await hashPassword(password));
  }
}
