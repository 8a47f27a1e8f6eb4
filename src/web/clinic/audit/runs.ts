import type { AuditLine } from "../../../record/audit/line.ts";

/** The same thing done by the same person several times running. */
export interface Run {
  /** The newest of them. */
  line: AuditLine;
  /** When the oldest of them was. */
  fromMs: number;
  times: number;
}

/** Lines, newest first, with those that say the same one after the other taken together: none is left out. */
export function runsOf(lines: readonly AuditLine[]): Run[] {
  const runs: Run[] = [];
  for (const line of lines) {
    const last = runs.at(-1);
    if (last && saysOf(last.line) === saysOf(line)) {
      last.fromMs = line.atMs;
      last.times += 1;
    } else runs.push({ line, fromMs: line.atMs, times: 1 });
  }
  return runs;
}

function saysOf({ accountId, action, outcome, objects }: AuditLine): string {
  return JSON.stringify([accountId, action, outcome, objects.map(({ kind, id }) => [kind, id])]);
}
