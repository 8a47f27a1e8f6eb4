import { benchRoles, homeRoles, type Listener, type Role } from "../../record/accounts/index.ts";

/** What a route is about, and so what must belong to whoever asks. */
export type Objects =
  | "nothing"
  | "person"
  | "stoma"
  | "photo"
  | "account"
  | "ownSession"
  | "ownPasskey"
  | "link";

/** Who may use a route, and on what. */
export interface Rule {
  /** `anyone`: without a session too. */
  who: "anyone" | readonly Role[];
  /** Looked up by the ids in the address, within the session's clinic. */
  about: Objects;
  /** Needs a sign-in of the last minutes. */
  recent: boolean;
  /** Where secrets are guessed at, far fewer requests are answered. */
  guessable: boolean;
}

const open = (more: Partial<Rule> = {}): Rule => ({
  who: "anyone",
  about: "nothing",
  recent: false,
  guessable: false,
  ...more,
});
const guessable = open({ guessable: true });
const read = (about: Objects = "nothing"): Rule => open({ who: benchRoles, about });
const write = (about: Objects = "nothing"): Rule => open({ who: ["lead", "nurse"], about });
const own = (more: Partial<Rule> = {}): Rule => open({ who: benchRoles, ...more });
const lead = (more: Partial<Rule> = {}): Rule => open({ who: ["lead"], ...more });
const home = open({ who: homeRoles });

/** Every route of the bench. One that is not here makes the server refuse to start. */
export const benchRules: Record<string, Rule> = {
  "GET /*": open(),
  "GET /api/openapi.json": open(),
  "GET /api/session": open(),
  "POST /api/set-up/look": guessable,
  "POST /api/set-up": guessable,
  "POST /api/sign-in": guessable,
  "POST /api/sign-in/passkey/options": guessable,
  "POST /api/sign-in/passkey": guessable,
  "POST /api/join/look": guessable,
  "POST /api/join": guessable,
  "POST /api/join/passkey/options": guessable,
  "POST /api/join/passkey": guessable,
  "POST /api/recover/look": guessable,
  "POST /api/recover": guessable,

  "POST /api/sign-out": own(),
  "POST /api/sign-out-everywhere": own(),
  "POST /api/confirm": own({ guessable: true }),
  "POST /api/confirm/passkey/options": own({ guessable: true }),
  "POST /api/confirm/passkey": own({ guessable: true }),
  "GET /api/account": own(),
  "PUT /api/account": own(),
  "DELETE /api/account/sessions/:sessionId": own({ about: "ownSession" }),
  "PUT /api/account/password": own({ guessable: true }),
  "PUT /api/account/second-factor": own({ recent: true }),
  "POST /api/account/passkeys/options": own({ recent: true }),
  "POST /api/account/passkeys": own({ recent: true }),
  "DELETE /api/account/passkeys/:credentialId": own({ about: "ownPasskey", recent: true }),

  "GET /api/accounts": lead(),
  "POST /api/accounts/links": lead({ recent: true }),
  "DELETE /api/accounts/links/:linkId": lead({ about: "link", recent: true }),
  "POST /api/accounts/:accountId/recovery": lead({ about: "account", recent: true }),
  "PUT /api/accounts/:accountId": lead({ about: "account", recent: true }),
  "POST /api/accounts/:accountId/close": lead({ about: "account", recent: true }),

  "POST /api/clinic": lead(),
  "GET /api/protocol": read(),
  "GET /api/today": read(),
  "GET /api/people": read(),
  "GET /api/people/:personId": read("person"),
  "POST /api/entries": write(),
  "POST /api/people/:personId/stomas/:stomaId/cutting-sheet": write("stoma"),
  "POST /api/people/:personId/stomas/:stomaId/log/check": write("stoma"),
  "POST /api/people/:personId/stomas/:stomaId/log/import": write("stoma"),
  "GET /api/people/:personId/changes.csv": read("person"),
  "PUT /api/people/:personId/stomas/:stomaId/photos/:photoId": write("stoma"),
  "GET /api/people/:personId/photos": read("person"),
  "GET /api/people/:personId/photos/:photoId": read("photo"),
  "GET /api/people/:personId/photos/:photoId/small": read("photo"),
  "DELETE /api/people/:personId/photos/:photoId": write("photo"),
  "GET /api/frame-card.pdf": read(),
  "GET /api/export.jsonl": lead({ recent: true }),
  "GET /api/audit": lead(),
  "GET /api/audit.jsonl": lead({ recent: true }),
  "POST /api/people/:personId/erase": lead({ about: "person", recent: true }),
};

/** Every route of the home log: one's own person's, by the session alone. */
export const homeRules: Record<string, Rule> = {
  "GET /api/home/session": open(),
  "GET /api/home/record": home,
  "POST /api/home/sign-out": home,
};

export const rulesAt: Record<Listener, Record<string, Rule>> = { bench: benchRules, home: homeRules };

/** Kinds of entries that a nurse does not write: they change the clinic for everyone. */
const leadsKinds = ["protocolSet", "clinic"];

export function mayWrite(role: Role, kind: unknown): boolean {
  return role === "lead" || (role === "nurse" && !leadsKinds.includes(String(kind)));
}
