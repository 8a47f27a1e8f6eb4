import { demoMayEnter, signIn } from "../access/index.ts";
import type { Bench, Workings } from "../bench.ts";
import { sessionSchema } from "../schemas.ts";
import { sessionOf } from "../sessionOf.ts";

/** What every page needs first. */
export function sessionRoutes(bench: Bench, workings: Workings): void {
  bench.get(
    "/api/session",
    { schema: { summary: "Who is signed in, clinic, day and protocol", response: { 200: sessionSchema } } },
    async (request, reply) => {
      if (!request.signedIn && workings.demoSignIn && demoMayEnter(request)) {
        const demo = await workings.accounts.demoAccount();
        if (demo) await signIn(workings, demo, request, reply);
      }
      return sessionOf(request, workings);
    },
  );
}
