import type { Session } from "../../../record/session.ts";
import { counted } from "../../shared/words/index.ts";

/** The whole record, to take away. */
export function TakeOut({ counts }: { counts: Session["counts"] }) {
  return (
    <section className="setup-part">
      <h2>Record</h2>
      <p>
        {counted(counts.entries, "entry", "entries")} about {counted(counts.people, "person", "people")}.{" "}
        <a href="/api/export.jsonl" download>
          Take out the whole record
        </a>
        , one entry a line (JSON Lines).
      </p>
      <p className="note">
        It holds everything written about everyone: keep it as you keep the record itself.
      </p>
    </section>
  );
}
