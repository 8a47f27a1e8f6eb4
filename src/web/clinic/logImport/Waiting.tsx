import { Button } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";
import type { ImportState } from "./useLogImport.ts";

/** What is being done, and the way to stop it. */
export function Waiting({
  state,
  onCancel,
}: {
  state: Extract<ImportState, { step: "checking" | "importing" }>;
  onCancel: () => void;
}) {
  const words =
    state.step === "checking"
      ? `Reading ${state.file.name}, ${sizeWords(state.file.size)}…`
      : `Recording ${counted(state.rows, "change", "changes")}…`;
  return (
    <div className="import-waiting">
      <p role="status">{words}</p>
      <progress aria-label={words} />
      <Button onClick={onCancel}>Stop</Button>
    </div>
  );
}

function sizeWords(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}
