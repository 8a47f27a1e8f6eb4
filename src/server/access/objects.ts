import type { FastifyRequest } from "fastify";
import { validate as isUuid } from "uuid";
import type { Account } from "../../record/accounts/index.ts";
import type { OpenRecord } from "../../record/open/index.ts";
import { Refusal } from "../errors/refusal.ts";
import type { ErrorCode } from "../errors/table.ts";
import type { Objects } from "./rules.ts";

type Params = Record<string, string | undefined>;
type Parts = Pick<OpenRecord, "accounts" | "belonging">;

interface Check {
  ids: readonly string[];
  refusal: ErrorCode;
  belongs(record: Parts, account: Account, params: Params): Promise<boolean>;
}

/** Whether what an address names belongs to whoever asks. What does not is answered as if it were not there. */
const checks: Record<Exclude<Objects, "nothing">, Check> = {
  person: {
    ids: ["personId"],
    refusal: "noSuchPerson",
    belongs: async ({ belonging }, { clinicId, personId: own }, { personId = "" }) =>
      (own === null || own === personId) && belonging.hasPerson(clinicId, personId),
  },
  stoma: {
    ids: ["personId", "stomaId"],
    refusal: "noSuchStoma",
    belongs: async ({ belonging }, { clinicId, personId: own }, { personId = "", stomaId = "" }) =>
      (own === null || own === personId) && belonging.hasStoma(clinicId, personId, stomaId),
  },
  photo: {
    ids: ["personId", "photoId"],
    refusal: "noSuchPhoto",
    belongs: async ({ belonging }, { clinicId, personId: own }, { personId = "", photoId = "" }) =>
      (own === null || own === personId) && belonging.hasPhoto(clinicId, personId, photoId),
  },
  account: {
    ids: ["accountId"],
    refusal: "noSuchAccount",
    belongs: async ({ accounts }, { clinicId }, { accountId = "" }) =>
      (await accounts.byId(clinicId, accountId)) !== null,
  },
  ownSession: {
    ids: ["sessionId"],
    refusal: "notFound",
    belongs: async ({ accounts }, account, { sessionId = "" }) => accounts.sessions.has(account, sessionId),
  },
  ownPasskey: {
    ids: [],
    refusal: "notFound",
    belongs: async ({ accounts }, account, { credentialId = "" }) =>
      (await accounts.passkeys.list(account)).some((one) => one.credentialId === credentialId),
  },
  link: {
    ids: ["linkId"],
    refusal: "notFound",
    belongs: async ({ accounts }, { clinicId }, { linkId = "" }) => accounts.links.has(clinicId, linkId),
  },
};

/**
 * The one place where objects are held against the session. Ids that are none are left to the route's schema, which
 * names the fault.
 * @throws {Refusal} 404
 */
export async function refuseForeignObjects(
  record: Parts,
  account: Account,
  about: Objects,
  request: FastifyRequest,
): Promise<void> {
  if (about === "nothing") return;
  const params = request.params as Params;
  const check = checks[about];
  if (!check.ids.every((name) => isUuid(params[name]))) return;
  if (about === "stoma") await refuseForeignObjects(record, account, "person", request);
  if (!(await check.belongs(record, account, params))) throw new Refusal(check.refusal);
}
