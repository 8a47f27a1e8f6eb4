import canonicalize from "canonicalize";
import type { AuditTrail } from "./trail.ts";

/**
 * A clinic's trail as JSON Lines: a header with the head, then the lines in order, each in canonical JSON, so that
 * anybody who has the audit key can check the hashes with a few lines of any language. Each ends in `\n`.
 */
export async function* exportAudit(
  trail: AuditTrail,
  clinicId: string,
  { exportedAt }: { exportedAt: string },
): AsyncGenerator<string> {
  const head = await trail.head(clinicId);
  yield `${canonicalize({ format: "roundel-audit", version: 1, clinicId, exportedAt, head })}\n`;
  for await (const line of trail.lines(clinicId)) {
    if (line.seq > head.seq) return;
    yield `${canonicalize(line)}\n`;
  }
}
