import type { ReactNode } from "react";
import { ApiError, useReach } from "../api/index.ts";
import { useKeptCount } from "../draft/index.ts";
import { PasskeyError } from "../passkey/index.ts";
import { counted, faultWords } from "../words/index.ts";
import { Button } from "./button.tsx";
import "./notes.css";

/** Something went wrong: what, and what to do. Announced at once. */
export function ErrorNote({
  error,
  children,
  retry,
}: {
  error?: unknown;
  children?: ReactNode;
  retry?: () => void;
}) {
  if (!error && !children) return null;
  return (
    <div className="errornote" role="alert">
      <div>
        <p>{children ?? sentenceOf(error)}</p>
        <FaultList error={error} />
      </div>
      {retry && <Button onClick={retry}>Try again</Button>}
    </div>
  );
}

/** Each fault that the bench found, by the name of its field. */
function FaultList({ error }: { error: unknown }) {
  if (!(error instanceof ApiError) || error.faults.length === 0) return null;
  return (
    <ul>
      {error.faults.map((fault) => (
        <li key={fault.path + fault.problem}>{faultWords(fault)}</li>
      ))}
    </ul>
  );
}

/** The sentence to show for any error. */
export function sentenceOf(error: unknown): string {
  if (error instanceof ApiError || error instanceof PasskeyError) return error.message;
  return `Something in this page went wrong (${error instanceof Error ? error.message : String(error)}).`;
}

/** Nothing here yet: says so, and what would fill it. */
export function EmptyNote({ children }: { children: ReactNode }) {
  return <p className="emptynote">{children}</p>;
}

/** Shown only where waiting is long enough to be noticed. */
export function LoadingNote({ what }: { what: string }) {
  return (
    <p className="loadingnote" role="status">
      Fetching {what}…
    </p>
  );
}

/** The bench does not answer: what is shown may be old, and what was typed is kept. */
export function OfflineNote() {
  const { reachable, lastAnswerMs } = useReach();
  const kept = useKeptCount();
  if (reachable) return null;
  const asOf = lastAnswerMs
    ? ` What you see is as of ${new Date(lastAnswerMs).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" })}.`
    : "";
  return (
    <p className="offlinenote" role="status">
      No answer from the bench.{asOf}{" "}
      {kept > 0 && (
        <b>
          {counted(kept, "thing", "things")} typed here {kept === 1 ? "is" : "are"} kept in this tab and not
          yet saved.
        </b>
      )}
    </p>
  );
}
