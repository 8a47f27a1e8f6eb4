import type { Entry } from "../entry/index.ts";
import type { Alongside } from "../store/index.ts";
import type { AuditAction, AuditObject } from "./actions.ts";
import type { AuditEvent } from "./line.ts";
import type { AuditTrail } from "./trail.ts";

/** Entries one line names; a large import is several lines. */
const entriesALine = 200;

/** Who writes, and what it is called. */
export type Writing = Pick<AuditEvent, "atMs" | "accountId" | "sessionId"> & { action: AuditAction };

/** Keeps the lines of a write in the write's own transaction. The trail must be open. */
export function linesOfWrite(trail: AuditTrail, writing: Writing): Alongside {
  return (entries) => async (trx) => {
    for (const [clinicId, events] of eventsByClinic(entries, writing)) {
      await trail.appendIn(trx, clinicId, events);
    }
  };
}

function eventsByClinic(entries: readonly Entry[], writing: Writing): Map<string, AuditEvent[]> {
  const events = new Map<string, AuditEvent[]>();
  for (const clinicId of new Set(entries.map((entry) => entry.clinicId))) {
    const own = entries.filter((entry) => entry.clinicId === clinicId);
    const lines: AuditEvent[] = [];
    for (let from = 0; from < own.length; from += entriesALine) {
      const objects = objectsOf(own.slice(from, from + entriesALine));
      lines.push({ ...writing, objects, outcome: "done" });
    }
    events.set(clinicId, lines);
  }
  return events;
}

/** People and stomas once each, then the entries. */
function objectsOf(entries: readonly Entry[]): AuditObject[] {
  const once = (ids: readonly (string | null)[]) => [...new Set(ids)].filter((id) => id !== null);
  return [
    ...once(entries.map(({ personId }) => personId)).map((id) => ({ kind: "person", id }) as const),
    ...once(entries.map(({ stomaId }) => stomaId)).map((id) => ({ kind: "stoma", id }) as const),
    ...entries.map(({ id }) => ({ kind: "entry", id }) as const),
  ];
}
