import { z } from "zod";
import {
  benchRoles,
  displayName,
  linkTo,
  type NewLink,
  roles,
  signInName,
} from "../../../record/accounts/index.ts";
import { signedInOf, siteOf } from "../../access/index.ts";
import type { Bench, Workings } from "../../bench.ts";
import { Refusal } from "../../errors/refusal.ts";
import { accountSchema, emptyBody, linkSchema } from "../../schemas.ts";

const accountParams = z.object({ accountId: z.uuid() });
const one = z.object({ account: accountSchema });
const role = z.enum(benchRoles);

const waiting = z.object({
  linkId: z.uuid(),
  kind: z.enum(["join", "recover"]),
  accountId: z.uuid().nullable(),
  role: z.enum(roles).nullable(),
  displayName: z.string().nullable(),
  expiresMs: z.number(),
});

/** The clinic's accounts, as its lead keeps them. */
export function accountsRoutes(bench: Bench, { accounts, publicUrl, now }: Workings): void {
  bench.get(
    "/api/accounts",
    {
      schema: {
        summary: "The clinic's accounts, and the links that are waiting to be used",
        response: { 200: z.object({ accounts: z.array(accountSchema), links: z.array(waiting) }) },
      },
    },
    async (request) => {
      const { clinicId } = signedInOf(request).account;
      const links = await accounts.links.waiting(clinicId, now());
      return {
        accounts: await accounts.list(clinicId),
        links: links.map(({ linkId, kind, accountId, role, displayName, expiresMs }) => ({
          linkId,
          kind,
          accountId,
          role,
          displayName,
          expiresMs,
        })),
      };
    },
  );

  bench.post(
    "/api/accounts/links",
    {
      schema: {
        summary: "A link by which a colleague makes their account",
        body: z.strictObject({ role, displayName, signInName: signInName.optional() }),
        response: { 201: linkSchema },
      },
    },
    async (request, reply) => {
      const { account } = signedInOf(request);
      const { signInName: name } = request.body;
      if (name !== undefined && (await accounts.byName(name))) throw new Refusal("nameTaken");
      const link = await accounts.links.join(account.clinicId, request.body, account.accountId, now());
      return reply.code(201).send(shown("join", link, siteOf(request, publicUrl).origin));
    },
  );

  bench.delete(
    "/api/accounts/links/:linkId",
    {
      schema: {
        summary: "Take back a link that was not used yet",
        params: z.object({ linkId: z.uuid() }),
        body: emptyBody,
        response: { 204: z.void() },
      },
    },
    async (request, reply) => {
      await accounts.links.void(signedInOf(request).account.clinicId, request.params.linkId);
      return reply.code(204).send();
    },
  );

  bench.post(
    "/api/accounts/:accountId/recovery",
    {
      schema: {
        summary: "A link by which somebody who cannot get in sets another password",
        params: accountParams,
        body: emptyBody,
        response: { 201: linkSchema },
      },
    },
    async (request, reply) => {
      const { account: lead } = signedInOf(request);
      const account = await accounts.open(lead.clinicId, request.params.accountId);
      if (!account || account.demo) throw new Refusal("noSuchAccount");
      const link = await accounts.links.recover(account, lead.accountId, now());
      return reply.code(201).send(shown("recover", link, siteOf(request, publicUrl).origin));
    },
  );

  bench.put(
    "/api/accounts/:accountId",
    {
      schema: {
        summary: "Change an account's role or the name beside what it writes",
        params: accountParams,
        body: z.strictObject({ role: role.optional(), displayName: displayName.optional() }),
        response: { 200: one },
      },
    },
    async (request) => {
      const { clinicId } = signedInOf(request).account;
      return { account: await accounts.change(clinicId, request.params.accountId, request.body) };
    },
  );

  bench.post(
    "/api/accounts/:accountId/close",
    {
      schema: {
        summary: "Close an account: nobody signs in to it again, and its name stays beside what it wrote",
        params: accountParams,
        body: emptyBody,
        response: { 200: one },
      },
    },
    async (request) => {
      const { clinicId } = signedInOf(request).account;
      return { account: await accounts.close(clinicId, request.params.accountId, now()) };
    },
  );
}

function shown(kind: "join" | "recover", { token, expiresMs }: NewLink, origin: string) {
  return { link: linkTo(kind, token, origin), expiresMs };
}
