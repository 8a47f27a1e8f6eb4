export {
  type AuditAction,
  type AuditObject,
  type AuditOutcome,
  auditActions,
  auditObjectKinds,
  auditOutcomes,
} from "./actions.ts";
export { exportAudit } from "./export.ts";
export type { AuditEvent, AuditHead, AuditLine } from "./line.ts";
export { type AuditPage, type AuditQuery, AuditTrail } from "./trail.ts";
export type { ChainFault, Verification } from "./verify.ts";
export { linesOfWrite, type Writing } from "./writes.ts";
