export { auditRequests } from "./auditing.ts";
export { type AuditRule, auditAt } from "./rules.ts";
