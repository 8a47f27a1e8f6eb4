import { z } from "zod";
import { hashPassword, type Link, signInName } from "../../../record/accounts/index.ts";
import { signIn, siteOf } from "../../access/index.ts";
import {
  browserOptions,
  newPasskeyRequest,
  passkeyAnswer,
  passkeyName,
  readNewPasskey,
} from "../../access/passkeys.ts";
import type { Bench, Workings } from "../../bench.ts";
import { Refusal } from "../../errors/refusal.ts";
import { refuseWeak, typedPassword } from "../../newPassword.ts";
import { sessionSchema, token } from "../../schemas.ts";
import { sessionOf } from "../../sessionOf.ts";

const looked = z.object({
  clinicName: z.string(),
  displayName: z.string(),
  role: z.string(),
  signInName: z.string().nullable(),
  expiresMs: z.number(),
});

/** A colleague's first sign-in, by the link that the lead handed over. */
export function joinRoutes(bench: Bench, workings: Workings): void {
  const { accounts, clinic, now, publicUrl } = workings;

  bench.post(
    "/api/join/look",
    {
      schema: {
        summary: "Whom a link is for",
        body: z.strictObject({ token }),
        response: { 200: looked },
      },
    },
    async (request) => {
      const { displayName, role, signInName, expiresMs, clinicId } = await look(request.body.token);
      return { clinicName: await nameOf(clinicId), displayName, role, signInName, expiresMs };
    },
  );

  bench.post(
    "/api/join",
    {
      schema: {
        summary: "Make the account that a link is for, with a password; signs it in",
        body: z.strictObject({ token, signInName, password: typedPassword }),
        response: { 200: sessionSchema },
      },
    },
    async (request, reply) => {
      const { token, signInName, password } = request.body;
      const link = await look(token);
      refuseWeak(password, [signInName, link.displayName, await nameOf(link.clinicId)]);
      const passwordHash = await hashPassword(password);
      const account = await accounts.together(async (inOne) => {
        await inOne.links.spend(token, ["join"], now());
        return inOne.create({ ...link, signInName, passwordHash }, now());
      });
      await signIn(workings, account, request, reply);
      return sessionOf(request, workings);
    },
  );

  bench.post(
    "/api/join/passkey/options",
    {
      schema: {
        summary: "What to ask the browser for, to make the account with a passkey",
        body: z.strictObject({ token, signInName }),
        response: { 200: browserOptions },
      },
    },
    async (request) => {
      const { token, signInName } = request.body;
      const { accountId, displayName } = await look(token);
      if (await accounts.byName(signInName)) throw new Refusal("nameTaken");
      const owner = { accountId, signInName, displayName };
      return newPasskeyRequest(accounts, siteOf(request, publicUrl), "join", owner, [], now());
    },
  );

  bench.post(
    "/api/join/passkey",
    {
      schema: {
        summary: "Make the account that a link is for, with a passkey; signs it in",
        body: z.strictObject({ token, signInName, name: passkeyName, response: passkeyAnswer }),
        response: { 200: sessionSchema },
      },
    },
    async (request, reply) => {
      const { token, signInName, name, response } = request.body;
      const link = await look(token);
      const key = await readNewPasskey(accounts, siteOf(request, publicUrl), "join", link, response, now());
      const account = await accounts.together(async (inOne) => {
        await inOne.links.spend(token, ["join"], now());
        const made = await inOne.create({ ...link, signInName, passwordHash: null }, now());
        await inOne.passkeys.add(key, name, now());
        return { ...made, passkeys: 1 };
      });
      await signIn(workings, account, request, reply);
      return sessionOf(request, workings);
    },
  );

  async function look(given: string): Promise<Invitation> {
    const link = await accounts.links.look(given, ["join"], now());
    return link as Invitation;
  }

  async function nameOf(clinicId: string): Promise<string> {
    return (await clinic.storyOf(clinicId))?.details.name ?? "";
  }
}

/** A link to join says who joins: the lead chose. */
type Invitation = { [K in "clinicId" | "accountId" | "displayName" | "role"]: NonNullable<Link[K]> } & Link;
