import { z } from "zod";
import { refuse } from "../../domain/fault.ts";
import { erasureGroundKeys, isTypedName } from "../../record/erasure/index.ts";
import { signedInOf } from "../access/index.ts";
import type { Bench, Workings } from "../bench.ts";
import { personParams } from "../schemas.ts";
import { personOf } from "../stomaOf.ts";

const body = z.strictObject({
  ground: z.enum(erasureGroundKeys).describe("On which ground of the law"),
  typedName: z.string().max(500).describe("The person's name, typed by hand: nobody is erased by a slip"),
});

const gone = z.object({
  entries: z.number(),
  photos: z.number(),
  accounts: z.number(),
  isTraceless: z
    .boolean()
    .describe("False while another program keeps older pages of the database from being emptied"),
});

/** The only physical delete. */
export function erasureRoutes(bench: Bench, { store, erasure, clinic, now }: Workings): void {
  bench.post(
    "/api/people/:personId/erase",
    {
      schema: {
        summary:
          "Erase a person on their lawful request, with everything derived from what was written about them",
        params: personParams,
        body,
        response: { 200: gone },
      },
    },
    async (request) => {
      const { clinicId } = await clinic.story(request);
      const { personId } = request.params;
      const { account, sessionId } = signedInOf(request);
      const { details } = await personOf(store, clinicId, personId);
      const { ground, typedName } = request.body;
      if (!isTypedName(typedName, details.name)) {
        refuse("typedName", "is not the person's name", typedName, "the name as it stands on their page");
      }
      const order = { clinicId, personId, ground, accountId: account.accountId, sessionId, nowMs: now() };
      const { entries, photos, accounts, isTraceless } = await erasure.erase(order);
      request.isAudited = true;
      return { entries, photos, accounts, isTraceless };
    },
  );
}
