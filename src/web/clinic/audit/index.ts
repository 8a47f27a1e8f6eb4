export { AuditPage } from "./AuditPage.tsx";
