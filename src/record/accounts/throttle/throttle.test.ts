import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { OpenRecord } from "../../open/index.ts";
import { recordOver } from "../../open/index.ts";
import { openSqliteDatabase } from "../../store/sqlite/index.ts";
import { type Counted, delayMs, slowings, type Throttle } from "./index.ts";

const second = 1000;
const minute = 60 * second;
const hour = 60 * minute;

describe("the delay after failures", () => {
  it("is none at first, then doubles, to a quarter of an hour", () => {
    const { stranger } = slowings;
    expect([0, 1, 3, 4, 5, 6, 12, 13, 500].map((failures) => delayMs(failures, stranger) / second)).toEqual([
      0, 0, 0, 2, 4, 8, 512, 900, 900,
    ]);
  });

  it.each(Object.entries(slowings))(
    "of %s never grows shorter and never passes the cap",
    (_kind, slowing) => {
      let before = 0;
      for (let failures = 0; failures < 2000; failures += 1) {
        const delay = delayMs(failures, slowing);
        expect(delay).toBeGreaterThanOrEqual(before);
        expect(delay).toBeLessThanOrEqual(15 * minute);
        before = delay;
      }
    },
  );

  it.each([
    ["known", 110],
    ["stranger", 110],
    ["address", 125],
  ] as const)(
    "leaves whoever guesses at %s without a pause at most %i tries in the first day",
    (kind, most) => {
      let tries = 0;
      for (let atMs = 0; atMs < 24 * hour; atMs += delayMs(tries, slowings[kind])) tries += 1;
      expect(tries).toBeGreaterThan(90);
      expect(tries).toBeLessThanOrEqual(most);
    },
  );
});

describe("counting failures", () => {
  let record: OpenRecord;
  let throttle: Throttle;
  beforeEach(async () => {
    record = recordOver(await openSqliteDatabase(":memory:"));
    throttle = record.accounts.throttle;
  });
  afterEach(() => record.close());

  const about = (kind: Counted["kind"], name = "ines"): Counted[] => [{ kind, parts: [name] }];
  const fail = async (counted: Counted[], times: number, nowMs: number) => {
    for (let done = 0; done < times; done += 1)
      expect(await throttle.take(counted, nowMs)).toMatchObject({ allowed: true });
  };

  it("says how long to wait, and does not count those who are told to", async () => {
    await fail(about("stranger"), 4, 0);
    expect(await throttle.take(about("stranger"), 500)).toEqual({ allowed: false, waitMs: 1500 });
    expect(await throttle.take(about("stranger"), 1999)).toEqual({ allowed: false, waitMs: 1 });
    await fail(about("stranger"), 1, 2000);
    expect(await throttle.take(about("stranger"), 2000)).toEqual({ allowed: false, waitMs: 4000 });
  });

  it("keeps apart what is different", async () => {
    await fail(about("stranger"), 4, 0);
    await fail(about("stranger", "bram"), 3, 0);
    await fail(about("known"), 5, 0);
    const both = [...about("stranger", "edda"), ...about("stranger")];
    expect(await throttle.take(both, 0)).toMatchObject({ allowed: false });
    // Whoever had to wait for one has not used up a try at the other.
    await fail(about("stranger", "edda"), 3, 0);
  });

  it("starts afresh at a known browser that succeeded", async () => {
    await fail(about("known"), 5, 0);
    await throttle.succeeded(about("known"));
    await fail(about("known"), 5, 0);
  });

  it("lets one success of an address undo no failure but its own", async () => {
    await fail(about("address"), 20, 0);
    await throttle.succeeded(about("address"));
    await fail(about("address"), 2, 0);
    expect(await throttle.take(about("address"), 0)).toMatchObject({ allowed: false });
  });

  it("forgets after a day without one", async () => {
    await fail(about("stranger"), 4, 0);
    await fail(about("stranger"), 4, 24 * hour);
  });

  it("keeps neither names nor addresses", async () => {
    await fail([{ kind: "address", parts: ["192.0.2.7"] }], 1, 0);
    const rows = await record.db.selectFrom("throttle").selectAll().execute();
    expect(JSON.stringify(rows)).not.toContain("192.0.2");
  });
});
