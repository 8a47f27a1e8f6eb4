import { z } from "zod";
import { displayName, hashPassword, isPassword } from "../../../record/accounts/index.ts";
import { confirmed, signedInOf, throttled } from "../../access/index.ts";
import type { Bench, Workings } from "../../bench.ts";
import { Refusal } from "../../errors/refusal.ts";
import { refuseWeak, typedPassword } from "../../newPassword.ts";
import { accountSchema, emptyBody, ownPasskeys } from "../../schemas.ts";
import { passkeysOf } from "./passkeys.ts";

const sessions = z.array(
  z.object({
    sessionId: z.uuid(),
    createdMs: z.number(),
    lastSeenMs: z.number(),
    device: z.string(),
    current: z.boolean(),
  }),
);

/** One's own account: sessions, password, both factors. */
export function ownAccountRoutes(bench: Bench, workings: Workings): void {
  const { accounts, clinic, now } = workings;

  bench.get(
    "/api/account",
    {
      schema: {
        summary: "One's own account with its sessions and passkeys",
        response: {
          200: z.object({
            account: accountSchema,
            sessions,
            passkeys: ownPasskeys,
            secondFactor: z.boolean(),
          }),
        },
      },
    },
    async (request) => {
      const { account, sessionId } = signedInOf(request);
      const lines = await accounts.sessions.list(account, now());
      return {
        account,
        sessions: lines.map((line) => ({ ...line, current: line.sessionId === sessionId })),
        passkeys: await passkeysOf(workings, request),
        secondFactor: account.secondFactor,
      };
    },
  );

  bench.put(
    "/api/account",
    {
      schema: {
        summary: "Change the name that stands beside what one writes",
        body: z.strictObject({ displayName }),
        response: { 200: z.object({ account: accountSchema }) },
      },
    },
    async (request) => {
      const { clinicId, accountId } = signedInOf(request).account;
      return { account: await accounts.change(clinicId, accountId, request.body) };
    },
  );

  bench.delete(
    "/api/account/sessions/:sessionId",
    {
      schema: {
        summary: "End one of one's own sessions",
        params: z.object({ sessionId: z.uuid() }),
        body: emptyBody,
        response: { 204: z.void() },
      },
    },
    async (request, reply) => {
      await accounts.sessions.end(signedInOf(request).account, request.params.sessionId);
      return reply.code(204).send();
    },
  );

  bench.put(
    "/api/account/password",
    {
      schema: {
        summary: "Set another password; every other session ends",
        body: z.strictObject({ current: z.string().max(2000).optional(), password: typedPassword }),
        response: { 204: z.void() },
      },
    },
    async (request, reply) => {
      const { account, sessionId, strongUntilMs } = signedInOf(request);
      const { current, password } = request.body;
      // Without an old password to ask for, a session that was left open must not be enough.
      if (!account.hasPassword && strongUntilMs <= now()) throw new Refusal("confirmItIsYou");
      const { details } = await clinic.story(request);
      refuseWeak(password, [account.signInName, account.displayName, details.name]);
      await throttled(workings, [{ kind: "known", parts: [sessionId] }], "signInFailed", async () => {
        const kept = await accounts.passwordHash(account);
        return kept === null || (await isPassword(kept, current ?? "")) || null;
      });
      const hash = await hashPassword(password);
      await accounts.together(async (inOne) => {
        await inOne.setPassword(account, hash);
        await inOne.sessions.endAll(account, { but: sessionId });
      });
      await confirmed(workings, request, reply);
      return reply.code(204).send();
    },
  );

  bench.put(
    "/api/account/second-factor",
    {
      schema: {
        summary: "Whether a password alone lets one in",
        body: z.strictObject({ required: z.boolean() }),
        response: { 200: z.object({ account: accountSchema }) },
      },
    },
    async (request) => {
      const { account } = signedInOf(request);
      await accounts.setSecondFactor(account, request.body.required);
      return { account: (await accounts.open(account.clinicId, account.accountId))! };
    },
  );
}
