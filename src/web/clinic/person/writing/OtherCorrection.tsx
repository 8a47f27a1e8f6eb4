import type { StoredEntry } from "../../../../record/entry/index.ts";
import { Button } from "../../../shared/ui/index.ts";
import { whenWords } from "../../../shared/words/index.ts";
import { useBench } from "../../frame/index.tsx";
import { partsOf } from "../history/parts.ts";

/** Somebody corrected the same entry meanwhile: shows theirs and keeps what was typed. */
export function OtherCorrection({ other, onTakeOver }: { other: StoredEntry; onTakeOver: () => void }) {
  const { today, clinic } = useBench();
  const when = whenWords({ instant: other.recordedAt, zone: clinic.details.timeZone }, today);
  return (
    <div className="errornote" role="alert">
      <div>
        <p>
          <b>{other.by.name}</b>{" "}
          {other.corrects?.as === "retract" ? "took this entry back" : "corrected this entry"} {when}. Yours
          is not saved yet; what you typed is still here.
        </p>
        <dl className="other-correction">
          {partsOf(other, today).map(({ label, words }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{words}</dd>
            </div>
          ))}
          <div>
            <dt>reason</dt>
            <dd>“{other.reason}”</dd>
          </div>
        </dl>
        <Button onClick={onTakeOver}>Correct theirs with mine</Button>
      </div>
    </div>
  );
}
