import type { Measured, Timing } from "./measure.ts";

const begins = "<!-- measured: begins -->";
const ends = "<!-- measured: ends -->";

/** The page with what was measured put in its place. */
export function withTable(page: string, measured: readonly Measured[], made: string): string {
  const [before, rest] = page.split(begins);
  const after = rest?.split(ends)[1];
  if (before === undefined || after === undefined) throw new Error("the page has no place for the figures");
  return `${before}${begins}\n\n${made}\n\n${table(measured)}\n\n${ends}${after}`;
}

function table(measured: readonly Measured[]): string {
  const columns = measured.map(({ people }) => `${people.toLocaleString("en")} people`);
  const row = (words: string, of: (one: Measured) => string) =>
    `| ${[words, ...measured.map(of)].join(" | ")} |`;
  return [
    `| | ${columns.join(" | ")} |`,
    `|---|${columns.map(() => "---").join("|")}|`,
    row("entries", ({ entries }) => entries.toLocaleString("en")),
    row("file, GB", ({ gigabytes }) => gigabytes.toFixed(2)),
    row("load average of the machine meanwhile", ({ loadAverage }) => loadAverage.toFixed(1)),
    row("people on the list of today", ({ named }) => named.toLocaleString("en")),
    row("first page of Today, ms (bar 50)", ({ todayMs }) => shown(todayMs)),
    row("… the engine alone: 50 rows by one index", ({ bare }) => shown(bare.todayMs)),
    row("add an entry, ms (bar 5 at p95)", ({ addMs }) => shown(addMs)),
    row("… the engine alone: one bare row, same fsync", ({ bare }) => shown(bare.addMs)),
    row("a person’s page, ms (bar 50)", ({ personMs }) => shown(personMs)),
    row("… the engine alone: the same rows", ({ bare }) => shown(bare.personMs)),
  ].join("\n");
}

/** p50 and p95. */
export function shown({ p50, p95 }: Timing): string {
  return `${brief(p50)} / ${brief(p95)}`;
}

function brief(ms: number): string {
  return ms < 10 ? ms.toFixed(2) : ms.toFixed(0);
}
