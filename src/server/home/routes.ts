import { z } from "zod";
import { benchRoles, type SignedIn } from "../../record/accounts/index.ts";
import type { OpenRecord } from "../../record/open/index.ts";
import { programVersion } from "../../record/programVersion.ts";
import { type Cookies, signedInOf } from "../access/index.ts";
import type { Bench } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { emptyBody } from "../schemas.ts";

interface HomeWorkings {
  record: Pick<OpenRecord, "store" | "accounts">;
  cookies: Cookies;
}

const session = z.object({
  signedIn: z.boolean(),
  account: z.object({ displayName: z.string(), role: z.enum(["person", "helper"]) }).nullable(),
  programVersion: z.string(),
});

/** What a person, or whoever helps them, may ask: their own record, by the session alone. No id stands in an address. */
export function homeRoutes(server: Bench, { record, cookies }: HomeWorkings): void {
  const { store, accounts } = record;

  server.get(
    "/api/home/session",
    { schema: { summary: "Who is signed in at the home log", response: { 200: session } } },
    async ({ signedIn }) => ({
      signedIn: signedIn !== null,
      account: signedIn ? atHome(signedIn) : null,
      programVersion,
    }),
  );

  server.get(
    "/api/home/record",
    { schema: { summary: "Every entry about one's own person" } },
    async (request) => {
      const { clinicId, personId } = signedInOf(request).account;
      if (personId === null) throw new Refusal("noSuchPerson");
      return { entries: await store.entriesOfPerson(clinicId, personId) };
    },
  );

  server.post(
    "/api/home/sign-out",
    { schema: { summary: "End this session", body: emptyBody, response: { 204: z.void() } } },
    async (request, reply) => {
      const { account, sessionId } = signedInOf(request);
      await accounts.sessions.end(account, sessionId);
      cookies.clearSession(reply);
      return reply.code(204).send();
    },
  );
}

function atHome({ account: { displayName, role } }: SignedIn) {
  return isBenchRole(role) ? null : { displayName, role };
}

function isBenchRole(role: string): role is (typeof benchRoles)[number] {
  return (benchRoles as readonly string[]).includes(role);
}
