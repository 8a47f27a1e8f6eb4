import type { Session } from "../../../record/session.ts";
import { useTakeOut } from "../../shared/api/index.ts";
import { Button, ErrorNote } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";

/** The whole record, to take away. */
export function TakeOut({ counts }: { counts: Session["counts"] }) {
  const takeOut = useTakeOut();
  return (
    <section className="setup-part">
      <h2>Record</h2>
      <p>
        {counted(counts.entries, "entry", "entries")} about {counted(counts.people, "person", "people")}, one
        entry a line (JSON Lines).
      </p>
      <ErrorNote error={takeOut.error} />
      <p>
        <Button busy={takeOut.isPending && "Taking it out…"} onClick={() => takeOut.mutate("/export.jsonl")}>
          Take out the whole record
        </Button>
      </p>
      <p className="note">
        It holds everything written about everyone: keep it as you keep the record itself.
      </p>
    </section>
  );
}
