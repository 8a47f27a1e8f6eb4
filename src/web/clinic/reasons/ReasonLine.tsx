import type { Reason } from "../../../domain/attention/index.ts";
import { Sentence } from "../../shared/ui/index.ts";
import { protocolWords } from "./protocolWords.ts";
import "./reasons.css";

/** A reason: its sentence with the figure in bold, and under it the protocol value that fired. */
export function ReasonLine({ reason }: { reason: Reason }) {
  return (
    <div className="reason">
      <p>
        <Sentence text={reason.text} />
      </p>
      <p className="note">{protocolWords(reason.protocol)}</p>
    </div>
  );
}
