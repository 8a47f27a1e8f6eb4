import type { FastifyRequest } from "fastify";
import { defaultProtocol } from "../../domain/protocol/index.ts";
import { todayIn } from "../../record/entry/index.ts";
import { programVersion } from "../../record/programVersion.ts";
import type { Session } from "../../record/session.ts";
import type { ClinicStory } from "../../record/story/index.ts";
import { authorOf } from "../author.ts";
import type { Bench, Workings } from "../bench.ts";

const nobodyYet = { people: 0, active: 0, entries: 0 };

/** What every page needs first. */
export function sessionRoutes(bench: Bench, workings: Workings): void {
  bench.get("/api/session", { schema: { summary: "Clinic, author, day and protocol" } }, async (request) =>
    sessionOf(request, workings, await workings.clinic.storyIfAny()),
  );
}

/** The session as it stands; it answers before the clinic was set up too. */
export async function sessionOf(
  request: FastifyRequest,
  { store, now }: Workings,
  clinic: ClinicStory | null,
): Promise<Session> {
  const demo = (await store.mark("demo")) !== null;
  if (!clinic) {
    const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
    return {
      clinic: null,
      author: null,
      demo,
      today: todayIn(here, now()),
      protocol: defaultProtocol,
      protocolVersion: 0,
      programVersion,
      counts: nobodyYet,
    };
  }
  const { clinicId, details, protocol, protocolVersion } = clinic;
  return {
    clinic: { clinicId, details },
    author: authorOf(request, clinic),
    demo,
    today: todayIn(details.timeZone, now()),
    protocol,
    protocolVersion,
    programVersion,
    counts: await store.counts(clinicId),
  };
}
