import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import { warningSigns } from "./index.ts";
import { warningSchema, warningSignSchema, warningSignsSchema } from "./input.ts";

const faults = (schema: Parameters<typeof parseInput>[0], input: unknown): string[] => {
  try {
    parseInput(schema, input);
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(({ path }) => path);
    throw error;
  }
  return [];
};

describe("rows as the lead may edit them", () => {
  it("are data: those that come with the program survive JSON", () => {
    expect(parseInput(warningSignsSchema, JSON.parse(JSON.stringify(warningSigns)))).toEqual(warningSigns);
  });

  const [row] = warningSigns;
  it.each([
    ["id", "two words"],
    ["level", "none"],
    ["sign", ""],
    ["sign", "No output for {hoursOfSomething}."],
    ["act", "Wait {noOutput.Hours}."],
    ["stomaTypes", []],
    ["stomaTypes", ["gastrostomy"]],
    ["source", " "],
    ["certainty", "certain"],
    ["colour", "red"],
  ])("refuse %s %j", (field, value) => {
    expect(faults(warningSignSchema, { ...row, [field]: value })).toEqual([
      expect.stringMatching(new RegExp(`^${field}`)),
    ]);
  });

  it.each([
    { yes: "hoursSinceOutput" },
    { yes: "nobodyAsksThis" },
    { is: "stomaColour", oneOf: ["green"] },
    { is: "stomaColour", oneOf: [] },
    { number: "hoursSinceOutput" },
    { number: "hoursSinceOutput", atLeast: "4" },
    { number: "hoursSinceOutput", atLeast: { protocol: "noSuchValue" } },
    { number: "vomiting", atLeast: 1 },
    { all: [] },
    { not: { yes: "vomiting" } },
    { yes: "vomiting", no: "nausea" },
  ])("refuse the condition %j", (when) => {
    expect(faults(warningSignSchema, { ...row, when })[0]).toMatch(/^when/);
  });

  it("refuse an id that is there twice", () => {
    expect(faults(warningSignsSchema, [row, row])).toEqual(["1.id"]);
  });
});

describe("answers", () => {
  const answered = (answers: object) => faults(warningSchema, { stomaType: "colostomy", answers });

  it("are of their question's kind", () => {
    expect(answered({ vomiting: true, hoursSinceOutput: 3, stomaColour: "black" })).toEqual([]);
    expect(answered({ vomiting: "yes" })).toEqual(["answers.vomiting"]);
    expect(answered({ hoursSinceOutput: -1 })).toEqual(["answers.hoursSinceOutput"]);
    expect(answered({ stomaColour: "green" })).toEqual(["answers.stomaColour"]);
    expect(answered({ temper: "bad" })).toEqual(["answers.temper"]);
  });
});
