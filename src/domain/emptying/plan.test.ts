import { describe, expect, it } from "vitest";
import { type OutingPlan, outingPlan, type PlanInput } from "./index.ts";

const hourMs = 3_600_000;
const startMs = Date.UTC(2026, 10, 2);
const at = (hour: number) => new Date(startMs + hour * hourMs).toISOString();

/** Seven days of a stoma that makes `mlPerHour`, then a day out from nine to six. */
function dayOut(mlPerHour: number, more: Partial<PlanInput> = {}): PlanInput {
  const days = 7;
  return {
    stomaType: "ileostomy",
    empties: Array.from({ length: days * 6 + 1 }, (_, i) => ({ at: at(4 * i), volumeMl: 4 * mlPerHour })),
    pouchCapacityMl: 600,
    night: "pouch",
    lastEmptiedAt: at(days * 24),
    sleep: { from: "23:00", to: "07:00" },
    timeZone: "UTC",
    outing: { from: at(days * 24 + 9), to: at(days * 24 + 18) },
    ...more,
  };
}
const hoursOf = ({ empty }: OutingPlan) =>
  empty!.map((one) => (Date.parse(one.at) - startMs) / hourMs - 7 * 24);
const carried = ({ carry }: OutingPlan) => carry.map(({ code }) => code);

describe("a day out", () => {
  it("begins with an emptying before leaving, and plans none after coming home", () => {
    const plan = outingPlan(dayOut(30));
    const hours = hoursOf(plan);
    expect(hours[0]).toBe(9);
    expect(hours.length).toBeGreaterThan(1);
    expect(hours.at(-1)!).toBeLessThan(18);
    expect(plan.empty![0]!.why.code).toBe("beforeLeaving");
    for (const { at, notAfter } of plan.empty!) expect(notAfter >= at).toBe(true);
  });

  it("with little output needs no toilet on the way", () => {
    expect(hoursOf(outingPlan(dayOut(8)))).toEqual([9]);
  });

  it("with more output has emptyings closer together", () => {
    const gap = (mlPerHour: number) => {
      const [first, second] = hoursOf(outingPlan(dayOut(mlPerHour)));
      return second! - first!;
    };
    expect(gap(60)).toBeLessThan(gap(30));
  });

  it("of a pouch that fills at once is no plan but a talk with the nurse", () => {
    const plan = outingPlan(dayOut(150, { pouchCapacityMl: 200 }));
    const hours = hoursOf(plan);
    for (const [i, hour] of hours.slice(1).entries()) expect(hour - hours[i]!).toBeGreaterThan(0.99);
    expect(plan.notes.map(({ code }) => code)).toContain("askForLarger");
  });

  it("cannot be planned from a log of some hours, but what to carry is known", () => {
    const plan = outingPlan({ ...dayOut(30), empties: [{ at: at(160), fraction: 0.3 }] });
    expect(plan.empty).toBeNull();
    expect(plan.notes.map(({ code }) => code)).toContain("logTooShort");
    expect(carried(plan)).toEqual(["changeSets", "sizes", "whomToCall"]);
  });
});

describe("what to carry", () => {
  it("is a change set on a day out, and one more for each day away", () => {
    const sets = (hours: number) =>
      outingPlan(dayOut(8, { outing: { from: at(177), to: at(177 + hours) } })).carry[0]!.params.sets;
    expect([9, 23, 24, 48].map(sets)).toEqual([1, 1, 2, 3]);
  });

  it("is a closed pouch for each change and one to spare", () => {
    const plan = outingPlan(dayOut(30, { pouch: "closed" }));
    const { params } = plan.carry.find(({ code }) => code === "closedPouches")!;
    expect(params.pouches).toBe(plan.empty!.length - 1 + 1);
  });

  it("is the night bag only when the night is spent away", () => {
    const bag = { night: "nightBag", nightCapacityMl: 2000 } as const;
    const away = { outing: { from: at(177), to: at(177 + 24) } };
    expect(carried(outingPlan(dayOut(30, bag)))).not.toContain("nightBag");
    expect(carried(outingPlan(dayOut(30, { ...bag, ...away })))).toContain("nightBag");
    expect(carried(outingPlan(dayOut(30, away)))).not.toContain("nightBag");
  });
});
