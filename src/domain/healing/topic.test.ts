import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import { healingOfOvalTopic, healingTopic } from "./topic.ts";

const faultsOf = (input: unknown): string[] => {
  try {
    parseInput(healingTopic.schema, input);
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(({ path }) => path);
    throw error;
  }
  return [];
};

describe("the healing topic", () => {
  it.each([healingTopic, healingOfOvalTopic])("$name runs its own example", (topic) => {
    const run = topic.run as (input: unknown) => { fitsUntilDay: unknown; measureAgainOnDay: number };
    const result = run(parseInput(topic.schema as typeof healingTopic.schema, topic.example));
    expect(result.fitsUntilDay).not.toBeNull();
    expect(result.measureAgainOnDay).toBeGreaterThan(20);
  });

  it("gives the keys of the contract", () => {
    const result = healingTopic.run(parseInput(healingTopic.schema, healingTopic.example));
    expect(Object.keys(result).sort()).toEqual(
      [
        "startMm",
        "finalMm",
        "timeConstantDays",
        "standardErrors",
        "residualSdMm",
        "forecast",
        "settledOnDay",
        "fitsUntilDay",
        "measureAgainOnDay",
        "rising",
        "dates",
        "notes",
      ].sort(),
    );
  });

  const reading = { day: 7, diameterMm: 35 };
  it.each([
    ["no reading", { readings: [] }, "readings"],
    [
      "a size that is not finite",
      { readings: [{ day: 7, diameterMm: Number.NaN }] },
      "readings.0.diameterMm",
    ],
    ["a day before surgery", { readings: [{ day: -1, diameterMm: 35 }] }, "readings.0.day"],
    ["a step that is nil", { readings: [{ ...reading, stepMm: 0 }] }, "readings.0.stepMm"],
    [
      "a step of a tracing",
      { readings: [{ ...reading, method: "tracing", stepMm: 3 }] },
      "readings.0.stepMm",
    ],
    ["a method nobody knows", { readings: [{ ...reading, method: "guess" }] }, "readings.0.method"],
    ["a date that is none", { readings: [reading], surgeryOn: "2025-02-30" }, "surgeryOn"],
    ["a prior nobody knows", { readings: [reading], prior: "strong" }, "prior"],
    ["a field nobody knows", { readings: [reading], clearance: 2 }, "clearance"],
  ])("refuses %s and names the field", (_what, input, path) => {
    expect(faultsOf(input)).toEqual([path]);
  });
});
