import type { FastifyRequest } from "fastify";
import type { Author } from "../record/entry/index.ts";
import { signedInOf } from "./access/signedIn.ts";

/** Who writes with this request. @throws {Refusal} `signInFirst` */
export function authorOf(request: FastifyRequest): Author {
  const { accountId, displayName } = signedInOf(request).account;
  return { id: accountId, name: displayName };
}
