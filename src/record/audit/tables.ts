import type { Selectable } from "kysely";
import type { AuditAction, AuditOutcome } from "./actions.ts";
import type { AuditHead, AuditLine } from "./line.ts";

/** One line of a clinic's chain; `objects` is JSON. */
export interface AuditLineTable {
  clinic_id: string;
  seq: number;
  at_ms: number;
  account_id: string | null;
  session_id: string | null;
  action: string;
  objects: string;
  outcome: string;
  prev: string;
  hash: string;
}

/** Finds the lines about a person; made from the lines, and proves nothing itself. */
export interface AuditPersonTable {
  clinic_id: string;
  person_id: string;
  seq: number;
}

export interface AuditHeadTable {
  clinic_id: string;
  seq: number;
  hash: string;
}

export function lineToRow({ objects, ...line }: AuditLine): AuditLineTable {
  return {
    clinic_id: line.clinicId,
    seq: line.seq,
    at_ms: line.atMs,
    account_id: line.accountId,
    session_id: line.sessionId,
    action: line.action,
    objects: JSON.stringify(objects),
    outcome: line.outcome,
    prev: line.prev,
    hash: line.hash,
  };
}

/** Counters may come as text from PostgreSQL. */
export function lineFromRow(row: Selectable<AuditLineTable>): AuditLine {
  return {
    seq: Number(row.seq),
    clinicId: row.clinic_id,
    atMs: Number(row.at_ms),
    accountId: row.account_id,
    sessionId: row.session_id,
    action: row.action as AuditAction,
    objects: objectsIn(row.objects),
    outcome: row.outcome as AuditOutcome,
    prev: row.prev,
    hash: row.hash,
  };
}

export function headFromRow(row: Selectable<AuditHeadTable>): AuditHead {
  return { seq: Number(row.seq), hash: row.hash };
}

/** A line that somebody made unreadable is one that was altered: its hash says so, and reading goes on. */
function objectsIn(text: string): AuditLine["objects"] {
  try {
    return JSON.parse(text);
  } catch {
    return [];
  }
}
