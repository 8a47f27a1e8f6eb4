import { describe, expect, it } from "vitest";
import { protocolWith } from "../protocol/index.ts";
import { type Empty, type EmptyingInput, emptying } from "./index.ts";

const hourMs = 3_600_000;
const startMs = Date.UTC(2026, 10, 2);

/** A log with a measured emptying every `everyHours`, of a stoma that makes `mlAt(hour)` in each hour of the clock. */
function steadyLog(
  days: number,
  mlAt: (hour: number) => number,
  { everyHours = 4, ...more }: Partial<EmptyingInput> & { everyHours?: number } = {},
): EmptyingInput {
  const empties: Empty[] = [];
  for (let hour = 0; hour <= days * 24; hour += everyHours) {
    const volumeMl = Array.from({ length: everyHours }, (_, i) => mlAt((hour - 1 - i + 24) % 24)).reduce(
      (a, b) => a + b,
    );
    empties.push({ at: new Date(startMs + hour * hourMs).toISOString(), volumeMl });
  }
  return {
    stomaType: "ileostomy",
    empties,
    pouchCapacityMl: 600,
    night: "pouch",
    lastEmptiedAt: empties.at(-1)!.at,
    sleep: { from: "23:00", to: "07:00" },
    timeZone: "UTC",
    ...more,
  };
}
const hoursAfter = (at: string | null, from: string) => (Date.parse(at!) - Date.parse(from)) / hourMs;
const codes = ({ notes }: { notes: { code: string }[] }) => notes.map(({ code }) => code);

describe("a stoma that makes 30 mL an hour", () => {
  const input = steadyLog(14, () => 30);
  const forecast = emptying(input);

  it("makes 720 mL a day, and the hours add up to the day", () => {
    expect(forecast.meanDailyMl! / 720).toBeCloseTo(1, 1);
    expect(forecast.rateByHourMl!.reduce((a, b) => a + b)).toBeCloseTo(forecast.meanDailyMl!, 9);
    expect(forecast.dailyBandMl!.lower).toBeLessThan(720);
    expect(forecast.dailyBandMl!.upper).toBeGreaterThan(720);
  });

  it("fills a third of 600 mL in about 6.7 hours, and half in about 10, with their spread", () => {
    const third = forecast.reachesThirdAt!;
    const half = forecast.reachesHalfAt!;
    expect(hoursAfter(third.p50, input.lastEmptiedAt)).toBeCloseTo(200 / 30, 0);
    expect(hoursAfter(half.p50, input.lastEmptiedAt)).toBeCloseTo(300 / 30, 0);
    for (const { p10, p50, p90 } of [third, half]) expect([p90, p50, p10].sort()).toEqual([p10, p50, p90]);
    expect(half.p10! > third.p10!).toBe(true);
  });

  it("has no hour quieter than another", () => {
    expect(forecast.quietHours).toEqual([]);
  });

  it("says that it is a forecast, and no more", () => {
    expect(codes(forecast)).toEqual(["emptyBySight"]);
  });
});

describe("a stoma that is quiet in the early morning", () => {
  const input = steadyLog(14, (hour) => (hour >= 5 && hour < 9 ? 8 : 40), { everyHours: 2 });
  const forecast = emptying(input);

  it("names a quiet time in it for a change, while awake", () => {
    const first = forecast.quietHours![0]!;
    expect(first.from >= "07:00" && first.from < "09:00").toBe(true);
    expect(first.expectedMl).toBeLessThan(40);
    expect(first.sureness).toBeGreaterThan(0.8);
  });

  it("has hourly bands that hold what it makes there", () => {
    const { lower, upper } = forecast.bandByHourMl![14]!;
    expect(lower).toBeLessThan(40);
    expect(upper).toBeGreaterThan(40);
    expect(forecast.bandByHourMl![6]!.upper).toBeLessThan(lower);
  });
});

describe("the night", () => {
  it("that passes half is something to talk over with the nurse, never an order", () => {
    const { night } = emptying(steadyLog(7, () => 50));
    expect(night!.chanceOverHalf).toBeGreaterThan(0.7);
    expect(night!.suggestion!.text).toContain("talk over with the nurse");
    expect(night!.halfFromAt! > night!.from && night!.halfFromAt! < night!.to).toBe(true);
  });

  it("that stays below gives no suggestion", () => {
    const { night } = emptying(steadyLog(7, () => 15));
    expect(night!.chanceOverHalf).toBeLessThan(0.1);
    expect([night!.suggestion, night!.halfFromAt]).toEqual([null, null]);
  });

  it("into a night bag is held against the bag", () => {
    const night = (more: object) => emptying(steadyLog(7, () => 60, more)).night!.chanceOverHalf;
    expect(night({ night: "nightBag", nightCapacityMl: 2000 })).toBeLessThan(0.05);
    expect(night({})).toBeGreaterThan(0.9);
  });

  it("is what is left of it when the last emptying fell in it", () => {
    const input = steadyLog(7, () => 30);
    const last = new Date(Date.parse(input.lastEmptiedAt) + 3 * hourMs).toISOString();
    const { from, to } = emptying({ ...input, lastEmptiedAt: last }).night!;
    expect([from, to]).toEqual([last, last.replace("T03", "T07")]);
  });

  it.each([
    ["2026-10-24", 9],
    ["2026-10-10", 8],
    ["2026-03-28", 7],
  ])("of %s has its own length on the person's clock", (date, hours) => {
    const input = steadyLog(7, () => 30, { timeZone: "Europe/London" });
    const moved = Date.parse(`${date}T18:00:00Z`) - Date.parse(input.lastEmptiedAt);
    const shift = (at: string) => new Date(Date.parse(at) + moved).toISOString();
    const { from, to } = emptying({
      ...input,
      empties: input.empties.map((empty) => ({ ...empty, at: shift(empty.at) })),
      lastEmptiedAt: shift(input.lastEmptiedAt),
    }).night!;
    expect(hoursAfter(to, from)).toBe(hours);
  });

  it("is worth talking over from the protocol's chance on", () => {
    const input = steadyLog(7, () => 36);
    const { chanceOverHalf } = emptying(input).night!;
    const suggestion = (nightRiskTarget: number) =>
      emptying(input, protocolWith({ nightRiskTarget })).night!.suggestion;
    expect(suggestion(chanceOverHalf)).not.toBeNull();
    expect(suggestion(chanceOverHalf + 1e-6)).toBeNull();
  });
});

describe("a short log", () => {
  it("of less than a day gives no figure, and says how much is needed", () => {
    const forecast = emptying(steadyLog(0.9, () => 30, { everyHours: 3 }));
    expect(forecast).toMatchObject({
      meanDailyMl: null,
      reachesThirdAt: null,
      night: null,
      quietHours: null,
    });
    expect(codes(forecast)).toEqual(["logTooShort"]);
    expect(emptying(steadyLog(0, () => 0)).emptiedAt.n).toBe(1);
  });

  it("of two days says that it is early, and has the wider band", () => {
    const [two, fourteen] = [2, 14].map((days) => emptying(steadyLog(days, () => 30)));
    expect(codes(two!)).toContain("fewDays");
    const width = ({ dailyBandMl }: typeof two & {}) => dailyBandMl!.upper / dailyBandMl!.lower;
    expect(width(two!)).toBeGreaterThan(width(fourteen!));
  });

  it("leans on what is usual for such a stoma, and a long one does not", () => {
    const share = (days: number) => {
      const { basis } = emptying(steadyLog(days, () => 60));
      return Number(basis.find(({ code }) => code === "beliefShare")!.params.personShare);
    };
    expect(share(1)).toBeLessThan(share(14));
    expect(share(14)).toBeGreaterThan(0.9);
    expect(emptying(steadyLog(1, () => 60)).meanDailyMl!).toBeLessThan(
      emptying(steadyLog(14, () => 60)).meanDailyMl!,
    );
  });
});

describe("days that differ", () => {
  const uneven = (spread: number) => {
    const input = steadyLog(14, () => 30);
    const empties = input.empties.map((empty) => {
      const day = Math.floor((Date.parse(empty.at) - startMs - 1) / (24 * hourMs));
      return { ...empty, volumeMl: empty.volumeMl! * (day % 2 === 0 ? 1 + spread : 1 - spread) };
    });
    return emptying({ ...input, empties, lastEmptiedAt: new Date(startMs + 15 * 24 * hourMs).toISOString() });
  };

  it("make a wider forecast of a day that has not begun", () => {
    const spreadOf = ({ reachesHalfAt }: ReturnType<typeof uneven>) =>
      hoursAfter(reachesHalfAt!.p90, reachesHalfAt!.p10!);
    expect(spreadOf(uneven(0.5))).toBeGreaterThan(1.3 * spreadOf(uneven(0)));
  });
});

describe("fullness that was judged", () => {
  it("carries the error of judging: a wider band than the same volumes measured", () => {
    const measured = steadyLog(14, () => 30);
    const judged = {
      ...measured,
      empties: measured.empties.map(({ at, volumeMl }) => ({ at, fraction: volumeMl! / 600 })),
    };
    const width = (input: EmptyingInput) => {
      const { lower, upper } = emptying(input).dailyBandMl!;
      return upper / lower;
    };
    expect(width(judged)).toBeGreaterThan(1.2 * width(measured));
  });
});

describe("time zones", () => {
  it("put the hours where the person lives", () => {
    const input = steadyLog(14, (hour) => (hour === 12 || hour === 13 ? 150 : 10), { everyHours: 2 });
    /** The middle of the day's output on the clock. */
    const middle = (timeZone: string) => {
      const turns = emptying({ ...input, timeZone }).rateByHourMl!.map((ml, hour) => [
        ml,
        (hour / 12) * Math.PI,
      ]);
      const sum = (wave: (angle: number) => number) =>
        turns.reduce((total, [ml, angle]) => total + ml! * wave(angle!), 0);
      return (Math.atan2(sum(Math.sin), sum(Math.cos)) / Math.PI) * 12;
    };
    const hoursApart = (middle("Asia/Tokyo") - middle("UTC") + 24) % 24;
    expect(hoursApart).toBeCloseTo(9, 0);
  });
});
