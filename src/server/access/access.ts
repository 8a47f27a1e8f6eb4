import cookie from "@fastify/cookie";
import type { FastifyReply, FastifyRequest, RouteOptions } from "fastify";
import type { Listener, SignedIn } from "../../record/accounts/index.ts";
import type { OpenRecord } from "../../record/open/index.ts";
import type { Bench } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import type { Cookies } from "./cookies.ts";
import { refuseForeignObjects } from "./objects.ts";
import { type Rule, rulesAt } from "./rules.ts";

declare module "fastify" {
  interface FastifyContextConfig {
    rule?: Rule;
  }
}

interface Guarded {
  listener: Listener;
  record: Pick<OpenRecord, "accounts" | "belonging">;
  cookies: Cookies;
  now: () => number;
}

/** A page says with it that nobody pressed anything: it looks by itself, and an idle session stays idle. */
const unattendedHeader = "roundel-unattended";

/** Requests a minute from one address where secrets are guessed at; elsewhere the server's own limit holds. */
const guessesAMinute = 30;

/**
 * Gives every route its rule, finds out who asks, and refuses what the rule does not allow. Later hooks and handlers
 * read `request.signedIn` and `request.rule`.
 * @throws while routes are added, where one has no rule
 */
export function guardRoutes(bench: Bench, { listener, record, cookies, now }: Guarded): void {
  bench.register(cookie);
  bench.decorateRequest("signedIn", null);
  bench.decorateRequest("rule", null);
  bench.addHook("onRoute", (route) => giveRule(route, listener));

  bench.addHook("onRequest", async (request, reply) => {
    request.rule = request.routeOptions.config.rule ?? null;
    request.signedIn = await resolve(request, reply);
  });
  // After the limits on how often one may ask, and before anything of a body is read.
  bench.addHook("preParsing", async ({ rule, signedIn }) => {
    if (rule) refuseByRule(rule, signedIn, now());
  });
  bench.addHook("preValidation", async (request) => {
    const { rule, signedIn } = request;
    if (rule && signedIn) await refuseForeignObjects(record, signedIn.account, rule.about, request);
  });

  async function resolve(request: FastifyRequest, reply: FastifyReply): Promise<SignedIn | null> {
    const secret = cookies.sessionOf(request);
    if (secret === null || !request.routeOptions.url?.startsWith("/api/")) return null;
    const attended = request.headers[unattendedHeader] === undefined;
    const found = await record.accounts.sessions.resolve(secret, listener, now(), { attended });
    if (found?.freshSecret) cookies.setSession(reply, found.freshSecret);
    return found?.signedIn ?? null;
  }
}

/** A route without a rule would be open to anyone, or to nobody: both are mistakes. */
function giveRule(route: RouteOptions, listener: Listener): void {
  const methods = [route.method].flat().filter((method) => method !== "HEAD");
  const rules = methods.map((method) => {
    const rule = rulesAt[listener][`${method} ${route.url}`];
    if (!rule) throw new Error(`The route ${method} ${route.url} has no rule in src/server/access/rules.ts.`);
    return rule;
  });
  const rule = rules[0] ?? rulesAt[listener][`GET ${route.url}`];
  if (!rule) throw new Error(`The route HEAD ${route.url} has no rule in src/server/access/rules.ts.`);
  const limit = rule.guessable ? { rateLimit: { max: guessesAMinute, timeWindow: "1 minute" } } : {};
  route.config = { ...limit, ...route.config, rule };
}

function refuseByRule({ who, recent }: Rule, signedIn: SignedIn | null, nowMs: number): void {
  if (who === "anyone") return;
  if (!signedIn) throw new Refusal("signInFirst");
  if (!who.includes(signedIn.account.role)) throw new Refusal("roleForbids");
  if (recent && signedIn.strongUntilMs <= nowMs) throw new Refusal("confirmItIsYou");
}
