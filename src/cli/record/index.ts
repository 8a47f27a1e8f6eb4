export { exportCommand } from "./export.ts";
export { importCommand } from "./import.ts";
export { rebuildCommand } from "./rebuild.ts";
