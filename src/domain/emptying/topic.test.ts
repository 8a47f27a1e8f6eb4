import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import type { Topic } from "../topic.ts";
import { emptyingTopic, planTopic } from "./topic.ts";

function faults<I, O>(topic: Topic<I, O>, changes: object): string[] {
  try {
    topic.run(parseInput(topic.schema, { ...(topic.example as object), ...changes }));
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(({ path }) => path);
    throw error;
  }
  return [];
}

describe("the emptying topic", () => {
  it("gives every figure of the contract", () => {
    const output = emptyingTopic.run(parseInput(emptyingTopic.schema, emptyingTopic.example));
    expect(output).toMatchObject({
      level: 0.8,
      meanDailyMl: expect.any(Number),
      reachesThirdAt: { p10: expect.any(String), p50: expect.any(String), p90: expect.any(String) },
      reachesHalfAt: expect.any(Object),
      night: { chanceOverHalf: expect.any(Number) },
      quietHours: expect.any(Array),
    });
    expect([output.rateByHourMl!.length, output.bandByHourMl!.length]).toEqual([24, 24]);
  });

  it("refuses what it does not understand, naming the field", () => {
    const empty = { at: "2026-11-24T06:40:00Z", fraction: 0.5 };
    expect(faults(emptyingTopic, { empties: [{ ...empty, fraction: 1.2 }] })).toEqual(["empties.0.fraction"]);
    expect(faults(emptyingTopic, { empties: [{ ...empty, at: "yesterday" }] })).toEqual(["empties.0.at"]);
    expect(faults(emptyingTopic, { empties: [{ ...empty, at: "2026-11-26T06:40:00Z" }] })).toEqual([
      "empties.0.at",
    ]);
    expect(faults(emptyingTopic, { night: "nightBag" })).toEqual(["nightCapacityMl"]);
    expect(faults(emptyingTopic, { sleep: { from: "22:30", to: "22:30" } })).toEqual(["sleep.to"]);
    expect(faults(emptyingTopic, { sleep: { from: "24:30", to: "06:30" } })).toEqual(["sleep.from"]);
    expect(faults(emptyingTopic, { timeZone: "Europe/Nowhere" })).toEqual(["timeZone"]);
    expect(
      faults(emptyingTopic, { logGaps: [{ from: "2026-11-24T06:00:00Z", to: "2026-11-24T05:00:00Z" }] }),
    ).toEqual(["logGaps.0.to"]);
  });

  it("refuses an outing in the past, far ahead or too long", () => {
    const outing = (from: string, to: string) => faults(planTopic, { outing: { from, to } });
    expect(outing("2026-11-24T09:00:00Z", "2026-11-25T09:00:00Z")).toEqual(["outing.from"]);
    expect(outing("2027-01-01T09:00:00Z", "2027-01-01T19:00:00Z")).toEqual(["outing.from"]);
    expect(outing("2026-11-25T09:00:00Z", "2026-11-29T09:00:00Z")).toEqual(["outing.to"]);
  });
});
