export { type BackupMade, type BackupOptions, backUp, lastBackupOf } from "./backup.ts";
export { migrationsOf } from "./dump.ts";
export { CarryFault, type CarryFaultCode } from "./fault.ts";
export { type Moved, type MoveOptions, move } from "./move.ts";
export { note } from "./noted.ts";
export { type Proof, proveRecoveryKey } from "./prove.ts";
export {
  type BackupFacts,
  type Restored,
  type RestoreOptions,
  restore,
  verifyBackup,
} from "./restore.ts";
export { readOnly, withFileSnapshot, withSnapshot } from "./snapshot.ts";
export type { Target } from "./target.ts";
