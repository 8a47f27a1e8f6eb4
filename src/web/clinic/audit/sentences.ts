import type { AuditAction, AuditObject, AuditOutcome } from "../../../record/audit/actions.ts";
import { type ErasureGround, erasureGrounds } from "../../../record/erasure/grounds.ts";

/** A piece of a sentence: plain words, or an id that the page shows by its name. */
export type Piece = string | AuditObject;

/** What a line says, without who did it. */
interface Doing {
  /** After a name: "looked at". */
  did: string;
  /** After "tried to". */
  todo: string;
  /** The kind of objects that the words name. */
  names?: AuditObject["kind"];
  /** Stands before the names, where there may be none. */
  joint?: string;
}

const doings: Record<AuditAction, Doing> = {
  signIn: { did: "signed in", todo: "sign in" },
  signOut: { did: "signed out", todo: "sign out" },
  signOutEverywhere: { did: "signed out everywhere", todo: "sign out everywhere" },
  confirm: { did: "confirmed who they are", todo: "confirm who they are" },
  setUpClinic: { did: "set up the clinic", todo: "set up the clinic" },
  changeClinic: { did: "changed the clinic’s details", todo: "change the clinic’s details" },
  readPerson: { did: "looked at", todo: "look at", names: "person" },
  listPeople: {
    did: "looked at the list of people",
    todo: "look at the list of people",
    names: "person",
    joint: " and found",
  },
  readToday: { did: "looked at today’s list", todo: "look at today’s list" },
  readPhoto: { did: "looked at a photograph of", todo: "look at a photograph of", names: "person" },
  writeEntries: { did: "wrote about", todo: "write about", names: "person" },
  importRecord: { did: "read a record in", todo: "read a record in" },
  importLog: { did: "imported a log of", todo: "import a log of", names: "person" },
  makeSheet: { did: "made a cutting sheet for", todo: "make a cutting sheet for", names: "person" },
  addPhoto: { did: "added a photograph of", todo: "add a photograph of", names: "person" },
  erasePhoto: { did: "erased a photograph of", todo: "erase a photograph of", names: "person" },
  erasePerson: { did: "erased", todo: "erase", names: "person" },
  exportRecord: { did: "took out the whole record", todo: "take out the whole record" },
  exportLog: { did: "took out the log of", todo: "take out the log of", names: "person" },
  readAudit: {
    did: "looked at who saw and changed what",
    todo: "look at who saw and changed what",
    names: "person",
    joint: " about",
  },
  exportAudit: { did: "took out who saw and changed what", todo: "take out who saw and changed what" },
  listAccounts: { did: "looked at the accounts", todo: "look at the accounts" },
  makeLink: { did: "made a one-time link for", todo: "make a one-time link for", names: "account" },
  voidLink: { did: "took back a one-time link", todo: "take back a one-time link" },
  join: { did: "opened their account", todo: "open an account by a link" },
  recover: { did: "set a new password by a link", todo: "set a new password by a link" },
  changeAccount: { did: "changed the account of", todo: "change the account of", names: "account" },
  closeAccount: { did: "closed the account of", todo: "close the account of", names: "account" },
  changePassword: { did: "changed their password", todo: "change their password" },
  changeSecondFactor: {
    did: "changed whether a passkey is asked for as well",
    todo: "change whether a passkey is asked for as well",
  },
  addPasskey: { did: "added a passkey", todo: "add a passkey" },
  removePasskey: { did: "removed a passkey", todo: "remove a passkey" },
  endSession: { did: "ended one of their sessions", todo: "end one of their sessions" },
  backUp: { did: "backed the record up", todo: "back the record up" },
  restore: { did: "restored the record", todo: "restore the record" },
  moveRecord: { did: "moved the record", todo: "move the record" },
  changeKeys: { did: "changed the keys", todo: "change the keys" },
};

/** Actions that must be about somebody, and how they read where the line names nobody. */
const nobodyNamed: Partial<Record<AuditAction, string>> = {
  writeEntries: " the clinic",
  makeLink: " a new colleague",
};

export interface SaidLine {
  action: AuditAction;
  objects: readonly AuditObject[];
  outcome: AuditOutcome;
}

/** A line in words that follow who did it: "looked at X.", "tried to look at X, and was refused." */
export function sentenceOfLine({ action, objects, outcome }: SaidLine): Piece[] {
  const { did, todo, names, joint } = doings[action];
  const named = objects.filter(({ kind }) => kind === names);
  const opening = outcome === "done" ? did : `tried to ${todo}`;
  const ending = outcome === "done" ? "." : ", and was refused.";
  if (named.length > 0) return [opening, joint ?? "", ...listed(named), ...becauseOf(objects), ending];
  const nobody = names && !joint ? (nobodyNamed[action] ?? " somebody") : "";
  return [opening, nobody, ...becauseOf(objects), ending];
}

/** " A, B and C" */
function listed(objects: readonly AuditObject[]): Piece[] {
  return objects.flatMap((object, index): Piece[] => {
    const joint = index === 0 ? " " : index === objects.length - 1 ? " and " : ", ";
    return [joint, object];
  });
}

const reasonWords: Record<string, string> = {
  replayed: "again, because a restore had brought them back",
};

function becauseOf(objects: readonly AuditObject[]): string[] {
  return objects
    .filter(({ kind }) => kind === "reason")
    .map(({ id }) => {
      const ground = erasureGrounds[id as ErasureGround] as string | undefined;
      return ground
        ? `: ${ground.charAt(0).toLowerCase()}${ground.slice(1, -1)}`
        : ` ${reasonWords[id] ?? ""}`;
    });
}

/** Who did it, where no account stands in the line. */
export function nobodyWords({ action }: Pick<SaidLine, "action">): string {
  const atDoor = ["signIn", "join", "recover", "setUpClinic"].includes(action);
  return atDoor ? "Somebody not signed in" : "A command at the machine";
}
