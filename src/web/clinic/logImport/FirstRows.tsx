import { ScrollTable } from "../../shared/ui/index.ts";
import { changedPartWords, changeReasonWords, counted, whenWords } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { hoursWords } from "../kindForms/index.ts";
import type { SentReport } from "./sendLog.ts";

/** The first rows as they would be recorded, to see that the file was understood. */
export function FirstRows({ rows, total }: { rows: SentReport["first"]; total: number }) {
  const { today } = useBench();
  if (rows.length === 0) return null;
  return (
    <section>
      <h2>
        {rows.length < total ? `First ${rows.length} of ${counted(total, "change", "changes")}` : "Changes"}
      </h2>
      <ScrollTable framed label="Changes to record">
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">When</th>
            <th scope="col">What</th>
            <th scope="col">Why</th>
            <th scope="col">More</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ line, at, body }) => (
            <tr key={line}>
              <td>{line}</td>
              <td>{whenWords(at, today)}</td>
              <td>{changedPartWords[body.what]}</td>
              <td>{changeReasonWords[body.why]}</td>
              <td>
                {[body.leakHours && hoursWords(body.leakHours), body.systemName, body.note]
                  .filter(Boolean)
                  .join(" · ")}
              </td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </section>
  );
}
