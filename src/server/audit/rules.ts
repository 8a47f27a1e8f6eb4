import type { FastifyRequest } from "fastify";
import type { Listener } from "../../record/accounts/index.ts";
import type { AuditAction, AuditObject } from "../../record/audit/index.ts";

/** A route whose requests are lines of the audit trail. What its address names by id stands in the line. */
export interface Audited {
  action: AuditAction;
  /** A secret is tried here: failing is a line too, though nobody is signed in. */
  tries: boolean;
  /** What else the answer was about. */
  found?(answer: unknown, request: FastifyRequest): AuditObject[];
}

/** A route that leaves no line, and why. */
export interface Unaudited {
  unaudited: string;
}

export type AuditRule = Audited | Unaudited;

const line = (action: AuditAction, found?: Audited["found"]): Audited => ({ action, tries: false, found });
const trying = (action: AuditAction): Audited => ({ action, tries: true });
const none = (unaudited: string): Unaudited => ({ unaudited });

const asksFirst = none("asks what a secret will be tried with; trying it is a line");
const nobodysData = none("tells nothing about a person");

/** Every route of the bench: its action, or why it has none. One that is not here makes the server refuse to start. */
export const benchAudit: Record<string, AuditRule> = {
  "GET /*": none("the program's own pages"),
  "GET /api/openapi.json": nobodysData,
  "GET /api/session": none("tells whoever asks about themselves"),
  "POST /api/set-up/look": asksFirst,
  "POST /api/set-up": line("setUpClinic"),
  "POST /api/sign-in": trying("signIn"),
  "POST /api/sign-in/passkey/options": asksFirst,
  "POST /api/sign-in/passkey": trying("signIn"),
  "POST /api/join/look": asksFirst,
  "POST /api/join": line("join"),
  "POST /api/join/passkey/options": asksFirst,
  "POST /api/join/passkey": line("join"),
  "POST /api/recover/look": asksFirst,
  "POST /api/recover": line("recover"),

  "POST /api/sign-out": line("signOut"),
  "POST /api/sign-out-everywhere": line("signOutEverywhere"),
  "POST /api/confirm": trying("confirm"),
  "POST /api/confirm/passkey/options": asksFirst,
  "POST /api/confirm/passkey": trying("confirm"),
  "GET /api/account": none("tells whoever asks about themselves"),
  "PUT /api/account": line("changeAccount", ownAccount),
  "DELETE /api/account/sessions/:sessionId": line("endSession"),
  "PUT /api/account/password": trying("changePassword"),
  "PUT /api/account/second-factor": line("changeSecondFactor"),
  "POST /api/account/passkeys/options": asksFirst,
  "POST /api/account/passkeys": line("addPasskey"),
  "DELETE /api/account/passkeys/:credentialId": line("removePasskey"),

  "GET /api/accounts": line("listAccounts"),
  "POST /api/accounts/links": line("makeLink"),
  "DELETE /api/accounts/links/:linkId": line("voidLink"),
  "POST /api/accounts/:accountId/recovery": line("makeLink"),
  "PUT /api/accounts/:accountId": line("changeAccount"),
  "POST /api/accounts/:accountId/close": line("closeAccount"),

  "POST /api/clinic": line("changeClinic"),
  "GET /api/protocol": nobodysData,
  "GET /api/today": line("readToday"),
  "GET /api/people": line("listPeople", fewFound),
  "GET /api/people/:personId": line("readPerson"),
  "POST /api/entries": line("writeEntries"),
  "POST /api/people/:personId/stomas/:stomaId/cutting-sheet": line("makeSheet"),
  "POST /api/people/:personId/stomas/:stomaId/log/check": line("readPerson"),
  "POST /api/people/:personId/stomas/:stomaId/log/import": line("importLog"),
  "GET /api/people/:personId/changes.csv": line("exportLog"),
  "PUT /api/people/:personId/stomas/:stomaId/photos/:photoId": line("addPhoto"),
  "GET /api/people/:personId/photos": line("readPerson"),
  "GET /api/people/:personId/photos/:photoId": line("readPhoto"),
  "GET /api/people/:personId/photos/:photoId/small": line("readPhoto"),
  "DELETE /api/people/:personId/photos/:photoId": line("erasePhoto"),
  "GET /api/frame-card.pdf": nobodysData,
  "GET /api/export.jsonl": line("exportRecord"),

  "GET /api/audit": line("readAudit", personAsked),
  "GET /api/audit.jsonl": line("exportAudit"),
  "POST /api/people/:personId/erase": line("erasePerson"),
};

/** Every route of the home log. */
export const homeAudit: Record<string, AuditRule> = {
  "GET /api/home/session": none("tells whoever asks about themselves"),
  "GET /api/home/record": line("readPerson", ownPerson),
  "POST /api/home/sign-out": line("signOut"),
};

export const auditAt: Record<Listener, Record<string, AuditRule>> = { bench: benchAudit, home: homeAudit };

/**
 * A search that finds no more than this names the people it showed: that is as good as opening them. A longer list is
 * one line without names, so that the trail does not fill with lists.
 */
const fewPeople = 20;

function fewFound(answer: unknown, { query }: FastifyRequest): AuditObject[] {
  const { people = [] } = answer as { people?: { personId: string }[] };
  const { text = "" } = query as { text?: string };
  if (text.trim() === "" || people.length > fewPeople) return [];
  return people.map(({ personId }) => ({ kind: "person", id: personId }));
}

function ownPerson(_answer: unknown, { signedIn }: FastifyRequest): AuditObject[] {
  const personId = signedIn?.account.personId;
  return personId ? [{ kind: "person", id: personId }] : [];
}

function ownAccount(_answer: unknown, { signedIn }: FastifyRequest): AuditObject[] {
  return signedIn ? [{ kind: "account", id: signedIn.account.accountId }] : [];
}

function personAsked(_answer: unknown, { query }: FastifyRequest): AuditObject[] {
  const { personId } = query as { personId?: string };
  return personId === undefined ? [] : [{ kind: "person", id: personId }];
}
