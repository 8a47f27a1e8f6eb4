import type { BadLine, DateOrder, LogReport } from "../../../record/log/report.ts";
import { ask } from "../../shared/api/index.ts";

export type { BadLine, DateOrder };

/** The report as it travels: the rows themselves stay with the server. */
export type SentReport = Omit<LogReport, "drafts">;

export interface ImportResult {
  imported: number;
  duplicates: number;
  left: BadLine[];
}

export interface LogUpload {
  personId: string;
  stomaId: string;
  file: File;
  dateOrder: DateOrder | null;
  signal: AbortSignal;
}

/** Has the bench read the file without recording anything. */
export function checkLog(upload: LogUpload): Promise<SentReport> {
  return send(upload, "check");
}

/** Records the rows: all, or the good ones only. */
export function importLog(upload: LogUpload, accept: "all" | "goodOnly"): Promise<ImportResult> {
  return send(upload, "import", { accept });
}

function send<T>(
  { personId, stomaId, file, dateOrder, signal }: LogUpload,
  what: "check" | "import",
  fields: Record<string, string> = {},
): Promise<T> {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  if (dateOrder) form.append("dateOrder", dateOrder);
  form.append("file", file);
  return ask<T>(`/people/${personId}/stomas/${stomaId}/log/${what}`, { method: "POST", body: form, signal });
}
