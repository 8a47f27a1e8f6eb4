import { programVersion } from "../programVersion.ts";
import type { RecordStore } from "../store/index.ts";
import type { Header } from "./format.ts";

const entriesARead = 500;

/**
 * The whole record of a clinic as JSON Lines: a header, then one entry a line in the order in which they were
 * committed. Entries that come in meanwhile are left for the next export. Each line ends in `\n`.
 */
export async function* exportRecord(
  store: RecordStore,
  clinicId: string,
  { exportedAt }: { exportedAt: string },
): AsyncGenerator<string> {
  const { entries } = await store.counts(clinicId);
  const header: Header = {
    format: "roundel-record",
    version: 1,
    clinicId,
    exportedAt,
    programVersion,
    entries,
  };
  yield lineOf(header);
  let cursor = 0;
  let left = entries;
  while (left > 0) {
    const page = await store.entriesAfter(clinicId, cursor, Math.min(entriesARead, left));
    if (page.length === 0) return;
    for (const { cursor: _place, ...entry } of page) yield lineOf(entry);
    cursor = page.at(-1)!.cursor;
    left -= page.length;
  }
}

function lineOf(value: unknown): string {
  return `${JSON.stringify(value)}\n`;
}
