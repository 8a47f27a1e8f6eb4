import { useState } from "react";
import { Button, ScrollTable } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";
import type { BadLine } from "./sendLog.ts";

const atOnce = 100;

/** Lines that cannot be read, each with what stands there and what was expected. */
export function BadLines({ bad, lines }: { bad: readonly BadLine[]; lines: number }) {
  const [limit, setLimit] = useState(atOnce);
  if (bad.length === 0) return null;
  return (
    <section>
      <h2>{counted(lines, "line", "lines")} that cannot be read</h2>
      <ScrollTable framed label="Lines that cannot be read">
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Column</th>
            <th scope="col">What is wrong</th>
            <th scope="col">It says</th>
            <th scope="col">Expected</th>
          </tr>
        </thead>
        <tbody>
          {bad.slice(0, limit).map((fault) => (
            <tr key={`${fault.line} ${fault.column} ${fault.problem}`}>
              <td>{fault.line}</td>
              <td>{fault.column ?? "whole line"}</td>
              <td>{fault.problem}</td>
              <td>{fault.got || "nothing"}</td>
              <td>{fault.expected}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {bad.length > limit && (
        <Button onClick={() => setLimit(limit * 4)}>
          Show more of {counted(bad.length, "fault", "faults")}
        </Button>
      )}
    </section>
  );
}
