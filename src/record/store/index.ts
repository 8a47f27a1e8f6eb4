export { openSqlite, recordFile } from "./sqlite/index.ts";
export {
  type CaseloadLimits,
  type CaseloadRow,
  ConflictError,
  type FitRow,
  type PeoplePage,
  type Progress,
  type RecordStore,
} from "./store.ts";
