import { type DragEvent, useState } from "react";
import { logColumns, whatWords, whyWords } from "../../../record/log/columns.ts";
import { ErrorNote } from "../../shared/ui/index.ts";

const columnWords: Record<(typeof logColumns)[number], string> = {
  date: "2026-11-25, or day, month and year in the order that you then name",
  time: "14:30; left empty, the whole day",
  what: Object.values(whatWords).join(", "),
  why: Object.values(whyWords).join(", "),
  system: "the pouching system put on, if it is not the one in use",
  "leak hours": "clock hours such as 3 4 5; 12 toward the head",
  "last sound": "date and time at which the seal was last seen sound",
  note: "anything else",
};

/** Takes a file by choosing or dropping it, and tells which columns are read. */
export function FileChoice({
  onChoose,
  error,
  stopped,
}: {
  onChoose: (file: File) => void;
  error: unknown;
  stopped: boolean;
}) {
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const [file] = event.dataTransfer.files;
    if (file) onChoose(file);
  };
  return (
    <>
      <label
        className={over ? "import-drop over" : "import-drop"}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        <span className="lead">Choose the file, or drop it here</span>
        <span className="note">
          A table as text (CSV), one change a line. Nothing is recorded before you say so.
        </span>
        <input
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file) onChoose(file);
          }}
        />
      </label>
      {stopped && (
        <p role="status">
          Stopped. Lines that had already reached the record stay there; the same file again adds none twice.
        </p>
      )}
      <ErrorNote error={error} />
      <section className="import-columns">
        <h2>Columns that are read</h2>
        <dl>
          {logColumns.map((column) => (
            <div key={column}>
              <dt>{column}</dt>
              <dd>{columnWords[column]}</dd>
            </div>
          ))}
        </dl>
        <p className="note">
          The first line names the columns, in any order. Date, what and why are needed. A log taken out of
          the bench has these columns.
        </p>
      </section>
    </>
  );
}
