import { Link } from "@tanstack/react-router";
import type { AuditObject } from "../../../record/audit/actions.ts";
import { counted, timeOfDay } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import type { Run } from "./runs.ts";
import { nobodyWords, sentenceOfLine } from "./sentences.ts";

/** The name of a person or an account; undefined where it is not known, or not any more. */
export type NameOf = (object: AuditObject) => string | undefined;

/** A line, or several that say the same, as a sentence: when, who, what and about whom. */
export function LineSaid({ run: { line, fromMs, times }, nameOf }: { run: Run; nameOf: NameOf }) {
  const zone = useBench().clinic.details.timeZone;
  const timeAt = (ms: number) => timeOfDay(new Date(ms).toISOString(), zone);
  const { accountId, atMs, outcome } = line;
  const who = accountId ? (nameOf({ kind: "account", id: accountId }) ?? shortId(accountId)) : null;
  return (
    <li className={outcome === "done" ? "audit-line" : "audit-line refused"}>
      <span className="audit-time">{timeAt(atMs)}</span>
      <p>
        {who ? <b>{who}</b> : nobodyWords(line)}{" "}
        {sentenceOfLine(line).map((piece, index) =>
          typeof piece === "string" ? (
            piece
          ) : (
            // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of a sentence keep their order
            <Named key={index} object={piece} nameOf={nameOf} />
          ),
        )}
        {times > 1 && (
          <span className="audit-times">
            {" "}
            {counted(times, "time", "times")} since {timeAt(fromMs)}.
          </span>
        )}
      </p>
    </li>
  );
}

function Named({ object, nameOf }: { object: AuditObject; nameOf: NameOf }) {
  const name = nameOf(object);
  if (object.kind !== "person") return <b>{name ?? shortId(object.id)}</b>;
  // Somebody who was erased has no name any more, and nothing to go to.
  if (!name) return <span className="audit-id">{shortId(object.id)}</span>;
  return (
    <Link to="/people/$personId" params={{ personId: object.id }}>
      {name}
    </Link>
  );
}

/** Enough of an id to tell it from its neighbours. */
function shortId(id: string): string {
  return `no. ${id.slice(0, 8)}`;
}
