import { useQueryClient } from "@tanstack/react-query";
import { useEffect, useRef, useState } from "react";
import { checkLog, type DateOrder, type ImportResult, importLog, type SentReport } from "./sendLog.ts";

export type ImportState =
  | { step: "choosing"; error: unknown; stopped: boolean }
  | { step: "checking"; file: File }
  | { step: "checked"; file: File; report: SentReport; dateOrder: DateOrder | null; error: unknown }
  | { step: "importing"; file: File; rows: number }
  | { step: "done"; result: ImportResult };

const begin: ImportState = { step: "choosing", error: null, stopped: false };
const halted: ImportState = { step: "choosing", error: null, stopped: true };

/** Walks from choosing a file to the result; each wait can be stopped. */
export function useLogImport(personId: string, stomaId: string) {
  const [state, setState] = useState<ImportState>(begin);
  const queries = useQueryClient();
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);

  const upload = (file: File, dateOrder: DateOrder | null) => {
    stop.current?.abort();
    stop.current = new AbortController();
    return { personId, stomaId, file, dateOrder, signal: stop.current.signal };
  };

  const check = async (file: File, dateOrder: DateOrder | null) => {
    const about = upload(file, dateOrder);
    setState({ step: "checking", file });
    try {
      const report = await checkLog(about);
      setState({ step: "checked", file, report, dateOrder, error: null });
    } catch (error) {
      setState({
        step: "choosing",
        error: about.signal.aborted ? null : error,
        stopped: about.signal.aborted,
      });
    }
  };

  const accept = async (what: "all" | "goodOnly") => {
    if (state.step !== "checked") return;
    const before = state;
    const about = upload(before.file, before.dateOrder);
    setState({ step: "importing", file: before.file, rows: before.report.good });
    try {
      const result = await importLog(about, what);
      setState({ step: "done", result });
    } catch (error) {
      setState(about.signal.aborted ? halted : { ...before, error });
    }
    await queries.invalidateQueries();
  };

  return {
    state,
    choose: (file: File) => check(file, null),
    explainDates: (order: DateOrder) => state.step === "checked" && check(state.file, order),
    accept,
    cancel: () => stop.current?.abort(),
    startAgain: () => setState(begin),
  };
}
