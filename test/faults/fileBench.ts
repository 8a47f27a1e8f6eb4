import type { Entry } from "../../src/record/entry/index.ts";
import { type OpenRecord, openRecord } from "../../src/record/open/index.ts";
import { type Bench, buildServer } from "../../src/server/index.ts";
import { now, nurse } from "../record/samples.ts";
import { type Asker, askerOf, makeAccount, signInDirectly } from "../server/bench.ts";

/** A bench over a record in a folder, asked by its lead. */
export interface FileBench extends Asker {
  bench: Bench;
  record: OpenRecord;
  close(): Promise<void>;
}

/** @param clock the bench's clock; it stands still unless given */
export async function fileBench(
  dataDir: string,
  entries: readonly Entry[],
  clock: () => number = () => now,
): Promise<FileBench> {
  const record = await openRecord({ dataDir });
  await record.store.append(entries);
  const bench = buildServer({ record, webDir: null, now: clock });
  await bench.ready();
  const asker = askerOf(bench);
  const lead = await makeAccount(record, { role: "lead", accountId: nurse.id, displayName: nurse.name });
  await signInDirectly(record, lead, asker, clock());
  return {
    ...asker,
    bench,
    record,
    async close() {
      await bench.close();
      await record.close();
    },
  };
}
