import type { FastifyRequest, RouteOptions } from "fastify";
import type { Listener } from "../../record/accounts/index.ts";
import { type AuditEvent, type AuditObject, linesOfWrite } from "../../record/audit/index.ts";
import type { OpenRecord } from "../../record/open/index.ts";
import { type Alongside, databaseTrouble } from "../../record/store/index.ts";
import type { Bench } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { withoutContent } from "../log.ts";
import { type Audited, type AuditRule, auditAt } from "./rules.ts";

declare module "fastify" {
  interface FastifyContextConfig {
    audit?: AuditRule;
  }
  interface FastifyRequest {
    /** Keeps the line of a write in the write's own transaction; the line is then not written again. */
    alongside: Alongside;
    /** Whether the line of this request is kept already. */
    isAudited: boolean;
    /** What the answer was about, besides what the address names. */
    found: AuditObject[];
  }
}

interface Auditing {
  listener: Listener;
  record: Pick<OpenRecord, "audit" | "accounts" | "store">;
  now: () => number;
}

/**
 * Writes a line for every request that a rule makes one of: with a write in its transaction, otherwise before the
 * answer leaves. An answer whose line cannot be kept is not given.
 * @throws while routes are added, where one has no rule
 */
export function auditRequests(bench: Bench, { listener, record, now }: Auditing): void {
  const { audit } = record;
  bench.decorateRequest("isAudited", false);
  bench.decorateRequest("found");
  bench.decorateRequest("alongside");
  bench.addHook("onRoute", (route) => giveAuditRule(route, listener));
  bench.addHook("onReady", () => audit.open());

  bench.addHook("onRequest", async (request) => {
    request.found = [];
    request.alongside = (entries) => {
      const { action } = auditedOf(request)!;
      const write = linesOfWrite(audit, { ...whoIs(request), atMs: now(), action })(entries);
      return async (trx) => {
        await write(trx);
        request.isAudited = true;
      };
    };
  });
  bench.addHook("preSerialization", async (request, reply, answer) => {
    if (reply.statusCode < 400) request.found = auditedOf(request)?.found?.(answer, request) ?? [];
    return answer;
  });
  bench.addHook("onSend", async (request, reply) => {
    const rule = auditedOf(request);
    const outcome = rule && outcomeOf(rule, request, reply.statusCode);
    if (!outcome || request.isAudited) return;
    // Should the line not be kept, the error that is answered instead comes by here again.
    request.isAudited = true;
    const about = await aboutWhom(rule, request, outcome);
    if (about.clinicId === null) return;
    const event = { ...whoIs(request), atMs: now(), action: rule.action, objects: about.objects, outcome };
    await audit.append(about.clinicId, [event]).catch((error) => {
      request.log.error(withoutContent(error), "a line was not kept");
      throw databaseTrouble(error) ? error : new Refusal("notAudited");
    });
  });

  /** Whose chain it is, and what it is about; no clinic where a stranger tried a name that nobody has. */
  async function aboutWhom(
    rule: Audited,
    request: FastifyRequest,
    outcome: AuditEvent["outcome"],
  ): Promise<{ clinicId: string | null; objects: AuditObject[] }> {
    const objects = [...idsInAddress(request), ...request.found];
    const { signedIn } = request;
    if (signedIn) return { clinicId: signedIn.account.clinicId, objects };
    if (outcome === "done" || !rule.tries) return { clinicId: null, objects };
    const { signInName } = (request.body ?? {}) as { signInName?: unknown };
    const account = typeof signInName === "string" ? await record.accounts.byName(signInName) : null;
    if (account) {
      return { clinicId: account.clinicId, objects: [{ kind: "account", id: account.accountId }] };
    }
    const clinicIds = await record.store.clinicIds();
    return { clinicId: clinicIds.length === 1 ? clinicIds[0]! : null, objects };
  }
}

/** A route without a rule would be looked at behind everybody's back. */
function giveAuditRule(route: RouteOptions, listener: Listener): void {
  const method = [route.method].flat().find((one) => one !== "HEAD") ?? "GET";
  const rule = auditAt[listener][`${method} ${route.url}`];
  if (!rule) throw new Error(`The route ${method} ${route.url} has no rule in src/server/audit/rules.ts.`);
  route.config = { ...route.config, audit: rule };
}

function auditedOf(request: FastifyRequest): Audited | null {
  const rule = request.routeOptions.config.audit;
  return rule && "action" in rule ? rule : null;
}

/** Null where nothing was seen or changed, and nothing was tried that may not be. */
function outcomeOf(
  { tries }: Audited,
  { signedIn }: FastifyRequest,
  status: number,
): AuditEvent["outcome"] | null {
  if (status < 400) return "done";
  if (status === 401) return tries ? "refused" : null;
  return signedIn && (status === 403 || status === 404) ? "refused" : null;
}

function whoIs({ signedIn }: FastifyRequest): Pick<AuditEvent, "accountId" | "sessionId"> {
  return { accountId: signedIn?.account.accountId ?? null, sessionId: signedIn?.sessionId ?? null };
}

const kindsInAddress = {
  personId: "person",
  stomaId: "stoma",
  accountId: "account",
  sessionId: "session",
  credentialId: "passkey",
  linkId: "link",
  photoId: "photo",
} as const;

/** Ids alone: whatever else stood in an id's place is no object. */
function idsInAddress({ params }: FastifyRequest): AuditObject[] {
  return Object.entries(kindsInAddress).flatMap(([name, kind]) => {
    const id = (params as Record<string, string | undefined> | undefined)?.[name];
    return id !== undefined && /^[\w-]{16,128}$/.test(id) ? [{ kind, id }] : [];
  });
}
