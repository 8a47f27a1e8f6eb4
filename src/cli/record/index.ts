export { backupCommand } from "./backup.ts";
export { checkCommand } from "./check.ts";
export { exportCommand } from "./export.ts";
export { importCommand } from "./import.ts";
export { moveCommand } from "./move.ts";
export { rebuildCommand } from "./rebuild.ts";
export { restoreCommand } from "./restore.ts";
