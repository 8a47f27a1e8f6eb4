export { fitOf } from "./fit.ts";
export { type RefreshOptions, refreshFits } from "./refresh.ts";
export type { PersonRow, StomaRow, WearRow } from "./rows.ts";
