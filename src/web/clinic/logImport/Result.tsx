import { Button, ButtonLink, Sentence } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";
import { BadLines } from "./BadLines.tsx";
import type { ImportResult } from "./sendLog.ts";

/** What was recorded and what was left out. */
export function Result({
  result: { imported, duplicates, left },
  personId,
  onStartAgain,
}: {
  result: ImportResult;
  personId: string;
  onStartAgain: () => void;
}) {
  const lines = new Set(left.map(({ line }) => line)).size;
  const parts = [
    `${counted(imported, "change", "changes")} recorded`,
    duplicates > 0 ? `${counted(duplicates, "line", "lines")} left out as already there` : "",
    lines > 0 ? `${counted(lines, "line", "lines")} left out because they cannot be read` : "",
  ];
  return (
    <div className="import-report">
      <p className="lead" role="status">
        <Sentence text={`${parts.filter(Boolean).join(", ")}.`} />
      </p>
      <BadLines bad={left} lines={lines} />
      <p className="formend">
        <ButtonLink first to="/people/$personId" params={{ personId }}>
          Open the person
        </ButtonLink>
        <Button onClick={onStartAgain}>Import another file</Button>
      </p>
    </div>
  );
}
