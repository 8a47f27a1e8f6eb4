import type { Role } from "../../../record/accounts/account.ts";

export const roleWords: Record<Role, string> = {
  lead: "Lead",
  nurse: "Nurse",
  reader: "Reader",
  person: "Person at home",
  helper: "Helper at home",
};

/** What a role lets one do, after "you" or "they". */
export const roleMay: Record<Role, string> = {
  lead: "read and write about everybody, and look after the protocol, the accounts and the record",
  nurse: "read and write about everybody",
  reader: "read about everybody and write nothing",
  person: "keep your own log",
  helper: "keep the log of one person",
};
