import { createHash, createHmac } from "node:crypto";
import canonicalize from "canonicalize";
import type { AuditAction, AuditObject, AuditOutcome } from "./actions.ts";

/** What happened, before it has its place in a chain. */
export interface AuditEvent {
  atMs: number;
  /** Null where nobody had signed in: a failed sign-in, or a command at the machine itself. */
  accountId: string | null;
  sessionId: string | null;
  action: AuditAction;
  objects: readonly AuditObject[];
  outcome: AuditOutcome;
}

/** One line of a clinic's chain. */
export interface AuditLine extends AuditEvent {
  /** Counted from 1 without gaps. */
  seq: number;
  clinicId: string;
  /** Hash of the line before; 64 zeros before the first. */
  prev: string;
  /** Hexadecimal. */
  hash: string;
}

/** Where a chain ends. Written down elsewhere, it proves later that nothing up to here was changed. */
export interface AuditHead {
  seq: number;
  hash: string;
}

/** The head of a chain without lines. */
export const emptyHead: AuditHead = { seq: 0, hash: "0".repeat(64) };

/**
 * The hash of a line: HMAC-SHA-256 under the record's audit key, plain SHA-256 where there is none, over the
 * canonical JSON of everything in the line but the hash itself.
 * @source RFC 8785 (canonical JSON), RFC 2104 and FIPS 180-4 (HMAC-SHA-256)
 */
export function lineHash(line: Omit<AuditLine, "hash">, key?: Uint8Array): string {
  const { seq, clinicId, atMs, accountId, sessionId, action, objects, outcome, prev } = line;
  const text = canonicalize({
    seq,
    clinicId,
    atMs,
    accountId,
    sessionId,
    action,
    objects,
    outcome,
    prev,
  })!;
  const hash = key ? createHmac("sha256", key) : createHash("sha256");
  return hash.update(text, "utf8").digest("hex");
}

/** Events as the lines that follow a head. */
export function linesAfter(
  head: AuditHead,
  clinicId: string,
  events: readonly AuditEvent[],
  key?: Uint8Array,
): AuditLine[] {
  let { seq, hash } = head;
  return events.map((event) => {
    const line = { ...event, seq: seq + 1, clinicId, prev: hash };
    seq = line.seq;
    hash = lineHash(line, key);
    return { ...line, hash };
  });
}

/** The people whom a line is about, each once. */
export function peopleOf({ objects }: Pick<AuditEvent, "objects">): string[] {
  return [...new Set(objects.filter(({ kind }) => kind === "person").map(({ id }) => id))];
}
