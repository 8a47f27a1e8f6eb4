import type { FastifyRequest } from "fastify";
import { defaultProtocol } from "../domain/protocol/index.ts";
import { todayIn } from "../record/entry/index.ts";
import { programVersion } from "../record/programVersion.ts";
import type { Session } from "../record/session.ts";
import { siteOf } from "./access/index.ts";
import { authorOf } from "./author.ts";
import type { Workings } from "./bench.ts";

const nobody = { people: 0, active: 0, entries: 0 };

/** The session as it stands. Without a sign-in it tells nothing of any clinic. */
export async function sessionOf(request: FastifyRequest, workings: Workings): Promise<Session> {
  const { store, accounts, clinic, now, publicUrl } = workings;
  const about = {
    demo: (await store.mark("demo")) !== null,
    passkeysPossible: siteOf(request, publicUrl).rpId !== null,
    programVersion,
  };
  const { signedIn } = request;
  if (!signedIn) {
    const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
    return {
      ...about,
      signedIn: false,
      setUp: await accounts.isSetUp(),
      account: null,
      strongUntilMs: null,
      endsInMs: null,
      clinic: null,
      author: null,
      today: todayIn(here, now()),
      protocol: defaultProtocol,
      protocolVersion: 0,
      counts: nobody,
    };
  }
  const { clinicId, details, protocol, protocolVersion } = await clinic.story(request);
  const { accountId, signInName, displayName, role } = signedIn.account;
  const { idle, absolute } = signedIn.endsMs;
  return {
    ...about,
    signedIn: true,
    setUp: true,
    account: { accountId, signInName, displayName, role },
    strongUntilMs: signedIn.strongUntilMs,
    endsInMs: { idle: idle - now(), absolute: absolute - now() },
    clinic: { clinicId, details },
    author: authorOf(request),
    today: todayIn(details.timeZone, now()),
    protocol,
    protocolVersion,
    counts: await store.counts(clinicId),
  };
}
