import { v4 as uuidv4 } from "uuid";
import { z } from "zod";
import {
  type AccountStore,
  displayName,
  hashPassword,
  type Link,
  signInName,
} from "../../../record/accounts/index.ts";
import { signIn } from "../../access/index.ts";
import type { Bench, Workings } from "../../bench.ts";
import { clinicEntry, givenDetails, readDetails } from "../../clinicDetails.ts";
import { Refusal } from "../../errors/refusal.ts";
import { refuseWeak, typedPassword } from "../../newPassword.ts";
import { sessionSchema, token } from "../../schemas.ts";
import { sessionOf } from "../../sessionOf.ts";

const kinds = ["setUp", "newClinic"] as const;

const body = z.strictObject({
  token,
  details: givenDetails.optional(),
  account: z.strictObject({ signInName, displayName, password: typedPassword }),
});

const looked = z.object({ clinicName: z.string().nullable(), expiresMs: z.number() });

/** The first lead of a clinic, by the link that the program printed. */
export function setUpRoutes(bench: Bench, workings: Workings): void {
  const { store, accounts, clinic, now } = workings;

  bench.post(
    "/api/set-up/look",
    {
      schema: {
        summary: "Whether a set-up link holds, and whether its clinic is there already",
        body: z.strictObject({ token }),
        response: { 200: looked },
      },
    },
    async (request) => {
      const { clinicId, expiresMs } = await look(request.body.token);
      const story = clinicId === null ? null : await clinic.storyOf(clinicId);
      return { clinicName: story?.details.name ?? null, expiresMs };
    },
  );

  bench.post(
    "/api/set-up",
    {
      schema: {
        summary:
          "Make the clinic, where it is not there yet, and the account of its lead; signs that lead in",
        body,
        response: { 200: sessionSchema },
      },
    },
    async (request, reply) => {
      const { token, details: given, account: asked } = request.body;
      const nowMs = now();
      const link = await look(token);
      const lead = { id: uuidv4(), name: asked.displayName };
      const clinicId = link.clinicId ?? uuidv4();
      const known = link.clinicId === null ? null : await clinic.storyOf(link.clinicId);
      if (!known && !given) throw missingDetails();
      const details = known ? null : readDetails(given!, lead, "details.");
      const clinicName = details?.name ?? known?.details.name ?? "";
      refuseWeak(asked.password, [asked.signInName, asked.displayName, clinicName], "account.password");
      const passwordHash = await hashPassword(asked.password);
      const { signInName, displayName } = asked;
      const make = async (inOne: AccountStore) => {
        await inOne.links.spend(token, kinds, nowMs);
        await inOne.create(
          { accountId: lead.id, clinicId, signInName, displayName, role: "lead", passwordHash },
          nowMs,
        );
      };
      if (details) {
        const entry = clinicEntry(clinicId, details, lead, nowMs);
        await store.append([entry], { alongside: (trx) => make(accounts.within(trx)) });
      } else await accounts.together(make);
      const account = (await accounts.open(clinicId, lead.id))!;
      await signIn(workings, account, request, reply);
      return sessionOf(request, workings);
    },
  );

  /** A link for the first clinic of all makes no second one beside a clinic that was imported meanwhile. */
  async function look(given: string): Promise<Link> {
    const link = await accounts.links.look(given, kinds, now());
    const isFirst = link.kind === "setUp" && link.clinicId === null;
    if (isFirst && (await store.clinicIds()).length > 0) throw new Refusal("linkSpent");
    return link;
  }
}

function missingDetails(): Refusal {
  return new Refusal("refused", {
    faults: [{ path: "details", problem: "is missing", got: undefined, expected: "the clinic's details" }],
  });
}
