import type { PlainDate } from "../domain/calendar.ts";
import type { Protocol } from "../domain/protocol/index.ts";
import type { Account } from "./accounts/account.ts";
import type { Author, BodyOf } from "./entry/index.ts";

/** What every page of the bench needs to know first. Without a sign-in nothing of a clinic is told. */
export interface Session {
  signedIn: boolean;
  /** Whether anybody can sign in yet; before that, only the set-up link lets somebody in. */
  setUp: boolean;
  account: Pick<Account, "accountId" | "signInName" | "displayName" | "role"> | null;
  /** Until when what needs a recent sign-in may be done. */
  strongUntilMs: number | null;
  /**
   * How long the session still lasts as of the answer: if nothing more is done with it, and whatever is done. A request
   * with the header `roundel-unattended`, as a page makes by itself, does not put the end off.
   */
  endsInMs: { idle: number; absolute: number } | null;
  /** Whether passkeys work at the address that was asked: on a bare number they do not. */
  passkeysPossible: boolean;
  clinic: { clinicId: string; details: BodyOf<"clinic"> } | null;
  author: Author | null;
  /** The folder holds invented people only. */
  demo: boolean;
  today: PlainDate;
  protocol: Protocol;
  protocolVersion: number;
  programVersion: string;
  counts: { people: number; active: number; entries: number };
}
