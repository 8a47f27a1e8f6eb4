import { z } from "zod";
import { type Account, hashPassword } from "../../../record/accounts/index.ts";
import { signIn } from "../../access/index.ts";
import type { Bench, Workings } from "../../bench.ts";
import { Refusal } from "../../errors/refusal.ts";
import { refuseWeak, typedPassword } from "../../newPassword.ts";
import { sessionSchema, token } from "../../schemas.ts";
import { sessionOf } from "../../sessionOf.ts";

const looked = z.object({
  clinicName: z.string(),
  displayName: z.string(),
  signInName: z.string(),
  expiresMs: z.number(),
});

/** Back into an account, by the link that the lead handed over. */
export function recoverRoutes(bench: Bench, workings: Workings): void {
  const { accounts, clinic, now } = workings;

  bench.post(
    "/api/recover/look",
    {
      schema: {
        summary: "Whose account a recovery link opens",
        body: z.strictObject({ token }),
        response: { 200: looked },
      },
    },
    async (request) => {
      const { account, expiresMs } = await look(request.body.token);
      const { displayName, signInName, clinicId } = account;
      return { clinicName: await nameOf(clinicId), displayName, signInName, expiresMs };
    },
  );

  bench.post(
    "/api/recover",
    {
      schema: {
        summary: "Set another password; every session ends, and a password alone lets in again",
        body: z.strictObject({ token, password: typedPassword }),
        response: { 200: sessionSchema },
      },
    },
    async (request, reply) => {
      const { token, password } = request.body;
      const { account } = await look(token);
      const { signInName, displayName, clinicId, accountId } = account;
      refuseWeak(password, [signInName, displayName, await nameOf(clinicId)]);
      const hash = await hashPassword(password);
      await accounts.together(async (inOne) => {
        await inOne.links.spend(token, ["recover"], now());
        await inOne.setPassword(account, hash);
        await inOne.setSecondFactor(account, false);
        await inOne.sessions.endAll(account);
      });
      await signIn(workings, (await accounts.open(clinicId, accountId))!, request, reply);
      return sessionOf(request, workings);
    },
  );

  /** The account behind a link; closed since, it is nobody's any more. */
  async function look(given: string): Promise<{ account: Account; expiresMs: number }> {
    const link = await accounts.links.look(given, ["recover"], now());
    const account = await accounts.open(link.clinicId ?? "", link.accountId ?? "");
    if (!account) throw new Refusal("linkSpent");
    return { account, expiresMs: link.expiresMs };
  }

  async function nameOf(clinicId: string): Promise<string> {
    return (await clinic.storyOf(clinicId))?.details.name ?? "";
  }
}
