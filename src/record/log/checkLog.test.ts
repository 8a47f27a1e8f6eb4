import { describe, expect, it } from "vitest";
import {
  change,
  day,
  entry,
  instant,
  now,
  samplePerson,
  storyOf,
  zone,
} from "../../../test/record/samples.ts";
import type { Entry } from "../entry/index.ts";
import { checkLog, type LogContext, type LogOptions, type LogReport, writeLog } from "./index.ts";

const person = samplePerson();

function context(more: Entry[] = [], of = person): LogContext {
  const story = storyOf([...of.entries, ...more]);
  return { stoma: story.stomas[0]!, history: story.history, zone, nowMs: now };
}

function check(text: string, options: LogOptions = {}, more: Entry[] = []): Promise<LogReport> {
  return checkLog(new TextEncoder().encode(text), context(more), options);
}

const head = "date,time,what,why,system,leak hours,last sound,note";
const file = (...rows: string[]) => [head, ...rows].join("\n");

describe("a row of the log", () => {
  it("becomes a change with everything it says", async () => {
    const report = await check(
      file('2026-11-02,08:15,barrier,leak under the barrier,"convex, 45 mm",3 4,2026-11-01 21:30,sore at 4'),
    );
    expect(report.bad).toEqual([]);
    expect(report.drafts).toEqual([
      {
        line: 2,
        at: { instant: "2026-11-02T08:15:00.000Z", zone },
        body: {
          what: "barrier",
          why: "leakUnderBarrier",
          systemName: "convex, 45 mm",
          leakHours: [3, 4],
          lastSoundAt: "2026-11-01T21:30:00.000Z",
          note: "sore at 4",
        },
      },
    ]);
  });

  it.each([
    ["barrier", "planned"],
    ["Pouch Only", "LEAK PAST THE EDGE"],
    ["pouchonly", "leak  under the barrier"],
    ["night bag", "Itch or lifting"],
    ["cap", "other"],
  ])("reads %j and %j whatever the case and the spaces", async (what, why) => {
    expect((await check(file(`2026-11-02,08:15,${what},${why}`))).bad).toEqual([]);
  });

  it.each([
    ["date", ",08:15,barrier,planned", "is missing"],
    ["date", "2026-02-30,08:15,barrier,planned", "is not a date"],
    ["date", "yesterday,08:15,barrier,planned", "is not a date"],
    ["date", "26-11-02,08:15,barrier,planned", "is not a date"],
    ["date", "2026-11-26,08:15,barrier,planned", "lies in the future"],
    ["time", "2026-11-25,10:06,barrier,planned", "lies in the future"],
    ["date", "2026-10-19,08:15,barrier,planned", "is before the surgery"],
    ["time", "2026-11-02,25:00,barrier,planned", "is not a time"],
    ["time", "2026-11-02,morning,barrier,planned", "is not a time"],
    ["time", "2026-11-02,0 am,barrier,planned", "is not a time"],
    ["time", "2026-11-02,13 pm,barrier,planned", "is not a time"],
    ["what", "2026-11-02,08:15,,planned", "is missing"],
    ["what", "2026-11-02,08:15,plate,planned", "is not one of the words"],
    ["why", "2026-11-02,08:15,barrier,", "is missing"],
    ["why", "2026-11-02,08:15,barrier,leak", "is not one of the words"],
    ["leak hours", "2026-11-02,08:15,barrier,planned,,13", "are not clock hours"],
    ["leak hours", "2026-11-02,08:15,barrier,planned,,3-5", "are not clock hours"],
    ["last sound", "2026-11-02,08:15,barrier,planned,,,2026-11-02 08:30", "is after the change"],
    ["last sound", "2026-11-02,08:15,barrier,planned,,,in the evening", "is not a date and time"],
    ["system", `2026-11-02,08:15,barrier,planned,${"x".repeat(121)}`, "is too long"],
    ["note", `2026-11-02,08:15,barrier,planned,,,,${"x".repeat(2001)}`, "is too long"],
  ])("is left out where its %s is wrong: %s", async (column, row, problem) => {
    const report = await check(file(row));
    expect(report.bad.map((bad) => [bad.line, bad.column, bad.problem])).toEqual([[2, column, problem]]);
    expect(report).toMatchObject({ rows: 1, good: 0, badLines: 1, drafts: [] });
  });

  it("tells every fault at once, not the first alone", async () => {
    const report = await check(file("2026-13-02,8,plate,leak"));
    expect(report.bad.map(({ column }) => column)).toEqual(["what", "why", "date"]);
    expect(report.badLines).toBe(1);
  });

  it("that has no time keeps its day, and the nurse is told", async () => {
    const report = await check(file("2026-11-02,,barrier,planned"));
    expect(report.drafts[0]?.at).toEqual(day("2026-11-02"));
    expect(report.doubts).toMatchObject([{ code: "timeMissing", count: 1, lines: [2] }]);
  });

  it("with a last sound time alone means the day of the change", async () => {
    const report = await check(file("2026-11-02,18:00,barrier,leak past the edge,,,09:00"));
    expect(report.drafts[0]?.body.lastSoundAt).toBe("2026-11-02T09:00:00.000Z");
  });
});

describe("times", () => {
  it.each([
    ["08:15", "08:15"],
    ["8:15", "08:15"],
    ["8.15", "08:15"],
    ["8h15", "08:15"],
    ["08:15:40", "08:15"],
    ["8:15 am", "08:15"],
    ["8:15PM", "20:15"],
    ["8 p.m.", "20:00"],
    ["12 am", "00:00"],
    ["12:30 pm", "12:30"],
    ["23:59", "23:59"],
  ])("%s is %s", async (written, read) => {
    const report = await check(file(`2026-11-02,${written},barrier,planned`));
    expect(report.drafts[0]?.at).toMatchObject({ instant: expect.stringContaining(`2026-11-02T${read}`) });
  });

  it("in summer time are an hour ahead of UTC in London", async () => {
    const report = await check(file("2026-10-21,08:15,barrier,planned"));
    expect(report.drafts[0]?.at).toEqual({ instant: "2026-10-21T07:15:00.000Z", zone });
  });

  it("that came twice when the clocks went back are taken as the first, and the nurse is told", async () => {
    const report = await check(file("2026-10-25,01:30,barrier,planned"));
    expect(report.drafts[0]?.at).toEqual({ instant: "2026-10-25T00:30:00.000Z", zone });
    expect(report.doubts).toMatchObject([{ code: "timeRepeated", lines: [2] }]);
  });

  it("with their offset say themselves which of the two they are", async () => {
    const report = await check(file("2026-10-25,01:30+00:00,barrier,planned"));
    expect(report.drafts[0]?.at).toEqual({ instant: "2026-10-25T01:30:00.000Z", zone });
    expect(report.doubts).toEqual([]);
  });

  it("that the clocks skipped move on by what was skipped, and the nurse is told", async () => {
    const old = samplePerson({}, { surgeryOn: { date: "2026-01-10", precision: "day" } });
    const text = file("2026-03-29,01:30,barrier,planned");
    const report = await checkLog(new TextEncoder().encode(text), context([], old));
    expect(report.drafts[0]?.at).toEqual({ instant: "2026-03-29T01:30:00.000Z", zone });
    expect(report.doubts).toMatchObject([{ code: "timeSkipped", lines: [2] }]);
  });

  it.each([
    ["America/St_Johns", "2026-11-02T11:45:00.000Z"],
    ["Asia/Kolkata", "2026-11-02T02:45:00.000Z"],
    ["Pacific/Auckland", "2026-11-01T19:15:00.000Z"],
    ["Pacific/Apia", "2026-11-01T19:15:00.000Z"],
  ])("are lived in the zone of the clinic: %s", async (inZone, expected) => {
    const bytes = new TextEncoder().encode(file("2026-11-02,08:15,barrier,planned"));
    const report = await checkLog(bytes, { ...context(), zone: inZone });
    expect(report.drafts[0]?.at).toEqual({ instant: expected, zone: inZone });
  });
});

describe("the order of day and month", () => {
  const rows = (...dates: string[]) => file(...dates.map((date) => `${date},08:15,barrier,planned`));

  it("is asked, not guessed, where the dates can be read in two ways", async () => {
    const report = await check(rows("03/11/2026", "05/11/2026"));
    expect(report).toMatchObject({ needsDateOrder: true, dateOrder: null, good: 0, drafts: [] });
    expect(report.problems).toMatchObject([{ code: "dateOrder", params: { line: 2, date: "03/11/2026" } }]);
  });

  it.each([
    ["dmy", ["2026-11-03"]],
    ["mdy", ["2026-03-11"]],
  ] as const)("is taken as it is said: %s", async (dateOrder, expected) => {
    const old = samplePerson({}, { surgeryOn: undefined });
    const bytes = new TextEncoder().encode(rows("03/11/2026"));
    const report = await checkLog(bytes, context([], old), { dateOrder });
    expect(report.drafts.map(({ at }) => ("instant" in at ? at.instant.slice(0, 10) : at.date))).toEqual(
      expected,
    );
  });

  it("is plain where one reading of some date makes no date", async () => {
    expect(await check(rows("03/11/2026", "21/11/2026"))).toMatchObject({ dateOrder: "dmy", good: 2 });
    expect(await check(rows("11/03/2026", "11/21/2026"))).toMatchObject({ dateOrder: "mdy", good: 2 });
  });

  it("is asked where the file mixes both", async () => {
    expect(await check(rows("21/11/2026", "11/21/2026"))).toMatchObject({ needsDateOrder: true, good: 0 });
  });

  it("needs no asking with the year first, nor for a date that is the same either way", async () => {
    expect(await check(rows("2026-11-03", "2026/11/4"))).toMatchObject({ dateOrder: "ymd", good: 2 });
    expect(await check(rows("11.11.2026"))).toMatchObject({ needsDateOrder: false, good: 1 });
  });

  it("is not settled by a date that is none either way", async () => {
    expect(await check(rows("03/11/2026", "40/40/2026"))).toMatchObject({ needsDateOrder: true });
  });
});

describe("what is there already", () => {
  const row = "2026-11-02,08:15,barrier,planned";

  it("twice in the file comes in once, whatever the note says", async () => {
    const report = await check(file(row, `${row},,,,second time`));
    expect(report).toMatchObject({ rows: 2, good: 2, duplicates: { inFile: 1, inRecord: 0 } });
    expect(report.drafts).toHaveLength(1);
  });

  it("in the record is counted and left out, to the minute", async () => {
    const known = entry("changed", change(), { ...person.about, at: instant("2026-11-02T08:15:42Z") });
    const report = await check(file(row), {}, [known]);
    expect(report).toMatchObject({ duplicates: { inFile: 0, inRecord: 1 }, drafts: [] });
  });

  it("and was taken back does not come in again", async () => {
    const known = entry("changed", change(), { ...person.about, at: instant("2026-11-02T08:15:00Z") });
    const back = entry("changed", change(), {
      ...person.about,
      at: instant("2026-11-02T08:15:00Z"),
      corrects: { id: known.id, as: "retract" },
      reason: "entered for the wrong person",
    });
    expect(await check(file(row), {}, [known, back])).toMatchObject({
      duplicates: { inRecord: 1 },
      drafts: [],
    });
  });

  it("is another change with another reason, system or time", async () => {
    const report = await check(
      file(
        row,
        "2026-11-02,08:15,barrier,other",
        `${row},another system`,
        "2026-11-02,08:16,barrier,planned",
      ),
    );
    expect(report.drafts).toHaveLength(4);
  });

  it("written as a log and read again adds nothing, in any hour", async () => {
    const times = ["2026-10-25T00:30:00.000Z", "2026-10-25T01:30:00.000Z", "2026-11-02T08:15:00.000Z"];
    const changes = times.map((time) =>
      entry(
        "changed",
        change("leakPastEdge", {
          leakHours: [11, 12],
          note: '=1+1, "quoted"\nsecond line',
          lastSoundAt: time,
        }),
        { ...person.about, at: instant(time) },
      ),
    );
    const dayOnly = entry("changed", change("other", { what: "nightBag" }), {
      ...person.about,
      at: day("2026-11-03"),
    });
    const all = [...changes, dayOnly];
    const text = writeLog(context(all).stoma, zone);
    expect(text).toContain("'=1+1");
    expect(await check(text, {}, all)).toMatchObject({ bad: [], duplicates: { inRecord: 4 }, drafts: [] });
    const fresh = await check(text);
    expect(fresh.drafts.map(({ body }) => body)).toEqual(all.map(({ body }) => body));
  });
});
