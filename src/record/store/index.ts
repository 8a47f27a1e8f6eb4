export { ErasedError } from "./erased.ts";
export { onLatest } from "./onLatest.ts";
export { DatabaseFault } from "./postgres/fault.ts";
export { refuseDamaged } from "./sqlite/fault.ts";
export { openSqlite, recordFile } from "./sqlite/index.ts";
export {
  type Alongside,
  type AppendOptions,
  type CaseloadLimits,
  type CaseloadRow,
  ConflictError,
  type FitRow,
  MovedOnError,
  type PeoplePage,
  type Progress,
  type RecordStore,
} from "./store.ts";
export { type DatabaseTrouble, databaseTrouble } from "./trouble.ts";
