export { exportRecord } from "./export.ts";
export type { Header } from "./format.ts";
export {
  type BadRecordLine,
  importRecord,
  type RecordImport,
  type RecordImportOptions,
} from "./import.ts";
