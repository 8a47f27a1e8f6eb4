/** Everything that leaves a line in the audit trail. Ids alone stand beside it, never names or content. */
export const auditActions = [
  "signIn",
  "signOut",
  "signOutEverywhere",
  "confirm",
  "setUpClinic",
  "changeClinic",
  "readPerson",
  "listPeople",
  "readToday",
  "readPhoto",
  "writeEntries",
  "importRecord",
  "importLog",
  "makeSheet",
  "addPhoto",
  "erasePhoto",
  "erasePerson",
  "exportRecord",
  "exportLog",
  "readAudit",
  "exportAudit",
  "listAccounts",
  "makeLink",
  "voidLink",
  "join",
  "recover",
  "changeAccount",
  "closeAccount",
  "changePassword",
  "changeSecondFactor",
  "addPasskey",
  "removePasskey",
  "endSession",
  "backUp",
  "restore",
  "moveRecord",
  "changeKeys",
] as const;

export type AuditAction = (typeof auditActions)[number];

/** `refused`: the right was missing, the secret was wrong, or the object is not there for this account. */
export const auditOutcomes = ["done", "refused"] as const;
export type AuditOutcome = (typeof auditOutcomes)[number];

export const auditObjectKinds = [
  "person",
  "stoma",
  "entry",
  "photo",
  "account",
  "session",
  "passkey",
  "link",
  "reason",
] as const;

/** What an action was about, by id. `reason` is one of a closed list of words, never a text that somebody typed. */
export interface AuditObject {
  kind: (typeof auditObjectKinds)[number];
  id: string;
}
