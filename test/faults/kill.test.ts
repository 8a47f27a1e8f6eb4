import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { chanceFrom } from "../../src/record/demo/chance.ts";
import { openRecord } from "../../src/record/open/index.ts";
import { clinicId, entriesInAll, jobOf } from "./job.ts";
import { expectRebuildTheSame, expectWhole } from "./wholeness.ts";
import { write } from "./writers.ts";

const seed = Number(process.env.FAULT_SEED ?? 20_261_125);
const kills = Number(process.env.FAULT_KILLS ?? 50);

let dataDir: string;
let auditKey: Uint8Array;
beforeEach(async () => {
  dataDir = mkdtempSync(join(tmpdir(), "roundel-killed-"));
  const record = await openRecord({ dataDir });
  auditKey = (await record.keys()).auditKey();
  await record.close();
});
afterEach(() => rmSync(dataDir, { recursive: true, force: true }));

describe("a record whose writer is killed with SIGKILL", () => {
  it(`${kills} times on the way through ${entriesInAll} entries keeps what it acknowledged, whole (seed ${seed})`, async () => {
    const chance = chanceFrom(seed);
    const batches = jobOf(seed);
    const acknowledged: string[] = [];
    let from = 0;
    let killed = 0;
    let unheard = 0;
    for (;;) {
      const room = batches.length - from;
      const quota = Math.min(room, Math.floor((2 * room * chance.share()) / (kills - killed + 1)));
      const mayKill = killed < kills;
      // Some die as they start, some between two writes, most in the middle of one.
      const waitMs = chance.oneOf([0, 0, 1, 1, 2, 3]);
      const killAfter = (done: number) => (mayKill && done >= quota ? waitMs : null);
      const written = await write(dataDir, { auditKey, seed, from, killAfter });
      acknowledged.push(...written.ids);
      if (!written.done) killed += 1;
      const record = await openRecord({ dataDir });
      const entries = await expectWhole(record, { clinicId, acknowledged, batches });
      // What was kept without being acknowledged is sent again, as a phone does that heard nothing.
      unheard += entries.length - acknowledged.length;
      from = batches.findIndex((batch) => !acknowledged.includes(batch[0]!.id));
      if (written.done || from === -1) {
        await expectRebuildTheSame(record);
        expect(entries).toHaveLength(entriesInAll);
        await record.close();
        break;
      }
      await record.close();
    }
    console.log(`killed ${killed} times; ${unheard} entries were kept before anybody heard of it`);
    expect(killed).toBe(kills);
  }, 600_000);
});
