/** What somebody may do. The last two never sign in at the bench: the home log is theirs. */
export const roles = ["lead", "nurse", "reader", "person", "helper"] as const;
export type Role = (typeof roles)[number];

export const benchRoles = ["lead", "nurse", "reader"] as const satisfies readonly Role[];
export const homeRoles = ["person", "helper"] as const satisfies readonly Role[];

/** Where somebody is signed in. A session of one is none at the other. */
export type Listener = "bench" | "home";

/** Someone who can sign in. */
export interface Account {
  accountId: string;
  clinicId: string;
  /** As it was typed; compared without regard to case. */
  signInName: string;
  /** Stands beside what they write. */
  displayName: string;
  role: Role;
  /** Whose log a person or helper keeps; null for the clinic's own. */
  personId: string | null;
  hasPassword: boolean;
  passkeys: number;
  /** Whether a password alone is not enough. */
  secondFactor: boolean;
  /** The invented account of the demo: nobody signs in to it but the demo itself. */
  demo: boolean;
  createdMs: number;
  closedMs: number | null;
}

/** Who asks, as a session says. */
export interface SignedIn {
  account: Account;
  /** A public name of the session; the cookie's secret is another. */
  sessionId: string;
  /** Until when what needs a recent sign-in may be done without another. */
  strongUntilMs: number;
  /** When the session ends: if nothing more is done with it, and whatever is done. */
  endsMs: { idle: number; absolute: number };
}

/** A session as its owner sees it in a list. */
export interface SessionLine {
  sessionId: string;
  createdMs: number;
  lastSeenMs: number;
  /** The browser and system it was opened with, in a few words. */
  device: string;
}

export interface Passkey {
  credentialId: string;
  name: string;
  /** The name of the site it was made for; it works nowhere else. */
  rpId: string;
  createdMs: number;
  lastUsedMs: number | null;
}
