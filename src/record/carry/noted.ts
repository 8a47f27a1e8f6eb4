import type { AuditAction } from "../audit/index.ts";
import type { OpenRecord } from "../open/index.ts";

/** Writes into the audit trail of every clinic that something was done to the record as a whole, at the machine itself. */
export async function note(
  { audit, store }: Pick<OpenRecord, "audit" | "store">,
  action: AuditAction,
  nowMs: number,
): Promise<void> {
  for (const clinicId of await store.clinicIds()) {
    await audit.append(clinicId, [
      { atMs: nowMs, accountId: null, sessionId: null, action, objects: [], outcome: "done" },
    ]);
  }
}
