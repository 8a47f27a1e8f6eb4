import { describe, expect, it } from "vitest";
import { z } from "zod";
import { faultSentence, InputError, parseInput, refuse, shown } from "./fault.ts";

const schema = z.strictObject({
  diameterMm: z.number().min(1).max(200),
  shape: z.enum(["round", "oval"]),
  note: z.string().min(2).max(10).optional(),
  hours: z.array(z.number()).max(3).optional(),
  on: z.iso.date().optional(),
  even: z
    .number()
    .refine((value) => value % 2 === 0, { message: "is odd", params: { expected: "an even number" } })
    .optional(),
});

function sentences(input: unknown): string[] {
  try {
    parseInput(schema, input);
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(faultSentence);
    throw error;
  }
  return [];
}

const good = { diameterMm: 30, shape: "round" };

describe("a fault's sentence", () => {
  it.each([
    [{ ...good, diameterMm: undefined }, "diameterMm: is missing (got nothing, expected number)"],
    [{ ...good, diameterMm: "30" }, 'diameterMm: is of the wrong type (got "30", expected number)'],
    [{ ...good, diameterMm: Number.NaN }, "diameterMm: is of the wrong type (got NaN, expected number)"],
    [{ ...good, diameterMm: 0 }, "diameterMm: is too small (got 0, expected at least 1)"],
    [{ ...good, diameterMm: 201 }, "diameterMm: is too large (got 201, expected at most 200)"],
    [
      { ...good, shape: "square" },
      'shape: is not one of the choices (got "square", expected "round" or "oval")',
    ],
    [{ ...good, note: "x" }, 'note: is too small (got "x", expected at least 2 characters)'],
    [{ ...good, hours: [1, 2, 3, 4] }, "hours: is too large (got [1,2,3,4], expected at most 3 items)"],
    [{ ...good, hours: [1, "2"] }, 'hours.1: is of the wrong type (got "2", expected number)'],
    [{ ...good, on: "tomorrow" }, 'on: is not valid (got "tomorrow", expected date)'],
    [{ ...good, even: 3 }, "even: is odd (got 3, expected an even number)"],
    [{ ...good, mood: "fine" }, 'mood: is not a known field (got "fine", expected only documented fields)'],
    [null, "input: is of the wrong type (got null, expected object)"],
    [undefined, "input: is missing (got nothing, expected object)"],
  ])("%j: %s", (input, sentence) => {
    expect(sentences(input)).toEqual([sentence]);
  });

  it("comes for every fault, not the first alone", () => {
    expect(sentences({ diameterMm: 0, shape: 7, extra: 1, more: 2 })).toHaveLength(4);
  });

  it("shows a long value in short, and survives one that no JSON can hold", () => {
    expect(shown("x".repeat(500))).toHaveLength(60);
    let deep: unknown = [];
    for (let level = 0; level < 50_000; level += 1) deep = [deep];
    expect(shown(deep)).toBe("something that cannot be shown");
    expect(shown(12n)).toBe("something that cannot be shown");
    expect(shown(() => 1)).toContain("=>");
  });
});

describe("refusing", () => {
  it("throws one fault as data, with its sentence as the message", () => {
    expect(() => refuse("a.b", "is odd", 3, "an even number")).toThrow(
      "a.b: is odd (got 3, expected an even number)",
    );
  });

  it("leaves good input as it was parsed", () => {
    expect(parseInput(schema, good)).toEqual(good);
  });
});
