import { Button, Choice, ErrorNote, Sentence } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";
import { BadLines } from "./BadLines.tsx";
import { FirstRows } from "./FirstRows.tsx";
import type { DateOrder, SentReport } from "./sendLog.ts";

const orders = [
  { value: "dmy", label: "Day, month, year" },
  { value: "mdy", label: "Month, day, year" },
] as const;

/** What the file holds, and what may be done with it. */
export function Report({
  file,
  report,
  error,
  dateOrder,
  onDateOrder,
  onAccept,
  onStartAgain,
}: {
  file: File;
  report: SentReport;
  error: unknown;
  dateOrder: DateOrder | null;
  onDateOrder: (order: DateOrder) => void;
  onAccept: (what: "all" | "goodOnly") => void;
  onStartAgain: () => void;
}) {
  const asksOrder = report.needsDateOrder || dateOrder !== null;
  return (
    <div className="import-report">
      <p className="lead" role="status">
        <Sentence text={countsWords(report)} />
      </p>
      <p className="note">
        {file.name}: {report.encoding}, divided by {delimiterWords[report.delimiter]}
        {report.unknownColumns.length > 0 && `; not read: ${report.unknownColumns.join(", ")}`}
      </p>
      {report.problems
        .filter(({ code }) => code !== "dateOrder")
        .map(({ code, text }) => (
          <ErrorNote key={code}>{text}</ErrorNote>
        ))}
      {asksOrder && (
        <div className="import-order">
          <p>
            {report.problems.find(({ code }) => code === "dateOrder")?.text ??
              "You said how dates are written:"}
          </p>
          <Choice
            label="A date such as 03/04/2026 is written"
            value={dateOrder === "ymd" ? "" : (dateOrder ?? "")}
            onChange={onDateOrder}
            choices={orders}
          />
        </div>
      )}
      <Doubts report={report} />
      <BadLines bad={report.bad} lines={report.badLines} />
      {!report.needsDateOrder && <FirstRows rows={report.first} total={newRows(report)} />}
      <ErrorNote error={error} />
      <Acceptance report={report} onAccept={onAccept} onStartAgain={onStartAgain} />
    </div>
  );
}

const delimiterWords = { ",": "commas", ";": "semicolons", tab: "tabs" } as const;

function newRows({ good, duplicates }: SentReport): number {
  return good - duplicates.inFile - duplicates.inRecord;
}

function countsWords(report: SentReport): string {
  const { inFile, inRecord } = report.duplicates;
  const parts = [
    `${counted(report.rows, "line", "lines")} read`,
    `${counted(newRows(report), "change", "changes")} to record`,
    inRecord > 0 ? `${inRecord} already in the record` : "",
    inFile > 0 ? `${inFile} twice in the file` : "",
    report.badLines > 0 ? `${counted(report.badLines, "line", "lines")} that cannot be read` : "",
  ];
  return `${parts.filter(Boolean).join(", ")}.`;
}

function Doubts({ report: { doubts } }: { report: SentReport }) {
  if (doubts.length === 0) return null;
  return (
    <section>
      <h2>To know before you accept</h2>
      <ul className="import-doubts">
        {doubts.map(({ code, text, count, lines }) => (
          <li key={code}>
            {text}{" "}
            <span className="note">
              {counted(count, "line", "lines")}
              {lines.length > 0 && `: ${lines.join(", ")}${count > lines.length ? ", …" : ""}`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Acceptance({
  report,
  onAccept,
  onStartAgain,
}: {
  report: SentReport;
  onAccept: (what: "all" | "goodOnly") => void;
  onStartAgain: () => void;
}) {
  const rows = newRows(report);
  const possible = rows > 0 && !report.needsDateOrder && report.problems.length === 0;
  const record = `Record ${counted(rows, "change", "changes")}`;
  return (
    <p className="formend">
      {possible && report.badLines === 0 && (
        <Button first onClick={() => onAccept("all")}>
          {record}
        </Button>
      )}
      {possible && report.badLines > 0 && (
        <Button first onClick={() => onAccept("goodOnly")}>
          {record}, leave out {counted(report.badLines, "line", "lines")}
        </Button>
      )}
      <Button onClick={onStartAgain}>Choose another file</Button>
    </p>
  );
}
