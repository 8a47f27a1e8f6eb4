import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import { protocolKeys } from "./index.ts";
import { protocolTopic } from "./topic.ts";

const answer = (input: unknown) => protocolTopic.run(parseInput(protocolTopic.schema, input));
const valuesOf = (input: unknown) => answer(input).groups.flatMap(({ values }) => values);

describe("the protocol as a topic", () => {
  it("gives every threshold once, with its unit and its source", () => {
    const values = valuesOf({});
    expect(values.map(({ key }) => key)).toEqual(protocolKeys);
    for (const { unit, source, label } of values) expect([unit, source, label].every(Boolean)).toBe(true);
  });

  it("starts from the defaults, and each default lies within its own limits", () => {
    for (const { value, default: byDefault, min, max, changed } of valuesOf({})) {
      expect(value).toBe(byDefault);
      expect(changed).toBe(false);
      expect(value >= min && value <= max).toBe(true);
    }
  });

  it("lays a clinic's own gap over the default and leaves the others alone", () => {
    const changed = valuesOf({ changes: { clearanceLiquidMm: 1.6 } }).filter((value) => value.changed);
    expect(changed.map(({ key, value }) => [key, value])).toEqual([["clearanceLiquidMm", 1.6]]);
  });

  it("refuses a value outside its limits and a threshold that does not exist", () => {
    expect(() => answer({ changes: { clearanceLiquidMm: 60 } })).toThrow(
      /changes\.clearanceLiquidMm: is too large \(got 60, expected at most 6\)/,
    );
    expect(() => answer({ changes: { luck: 1 } })).toThrow(/changes\.luck: is not a known field/);
    expect(() => answer({ changes: { riskTarget: null } })).toThrow(InputError);
  });
});
