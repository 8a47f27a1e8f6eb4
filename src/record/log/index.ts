export { checkLog } from "./check.ts";
export { type LogColumn, logColumns, whatWords, whyWords } from "./columns.ts";
export { type Accept, importLog, type LogImport, type LogImportOptions, whyNotImport } from "./import.ts";
export {
  type BadLine,
  type DateOrder,
  dateOrders,
  type LogContext,
  type LogDoubt,
  type LogDraft,
  type LogOptions,
  type LogReport,
} from "./report.ts";
export { writeLog } from "./write.ts";
