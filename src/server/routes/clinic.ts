import { z } from "zod";
import type { BodyOf } from "../../record/entry/index.ts";
import { signedInOf } from "../access/index.ts";
import { authorOf } from "../author.ts";
import type { Bench, Workings } from "../bench.ts";
import { clinicEntry, givenDetails, readDetails } from "../clinicDetails.ts";
import { sessionSchema } from "../schemas.ts";
import { sessionOf } from "../sessionOf.ts";

const body = z.strictObject({ details: givenDetails });

/** Later changes of the clinic's details; the first are given at set-up. */
export function clinicRoutes(bench: Bench, workings: Workings): void {
  const { store, clinic, turns, now } = workings;
  bench.post(
    "/api/clinic",
    { schema: { summary: "Change the clinic's details", body, response: { 200: sessionSchema } } },
    async (request) => {
      const { clinicId } = signedInOf(request).account;
      return turns.take(`clinic ${clinicId}`, async () => {
        const before = await clinic.story(request);
        const details = readDetails(request.body.details, before.details.nurse);
        if (!isSame(details, before.details)) {
          const entries = [clinicEntry(clinicId, details, authorOf(request), now())];
          await store.append(entries, { alongside: request.alongside(entries) });
        }
        return sessionOf(request, workings);
      });
    },
  );
}

function isSame(a: BodyOf<"clinic">, b: BodyOf<"clinic">): boolean {
  const inOrder = ({ nurse, ...rest }: BodyOf<"clinic">) =>
    JSON.stringify([Object.entries(rest).sort(), nurse.id, nurse.name]);
  return inOrder(a) === inOrder(b);
}
