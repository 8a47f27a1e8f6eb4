import type { FastifyRequest } from "fastify";
import type { SignedIn } from "../../record/accounts/index.ts";
import { Refusal } from "../errors/refusal.ts";
import type { Rule } from "./rules.ts";

declare module "fastify" {
  interface FastifyRequest {
    /** Who asks; null without a session. */
    signedIn: SignedIn | null;
    /** The rule of the route that was found; null where none was. */
    rule: Rule | null;
  }
}

/** Who asks, where the rule of the route lets nobody in without a session. @throws {Refusal} `signInFirst` */
export function signedInOf({ signedIn }: FastifyRequest): SignedIn {
  if (!signedIn) throw new Refusal("signInFirst");
  return signedIn;
}
