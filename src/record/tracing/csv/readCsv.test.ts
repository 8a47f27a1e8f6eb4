import { describe, expect, it } from "vitest";
import { UnreadableTracing } from "../unreadable.ts";
import { readCsv } from "./index.ts";

const faultOf = (text: string) => {
  try {
    readCsv(text);
  } catch (error) {
    if (error instanceof UnreadableTracing) return error.note;
    throw error;
  }
  throw new Error("it was read");
};
const square = [
  [0, 0],
  [30, 0],
  [30, 20],
  [0, 20],
];
const rows = (between: string, decimals: (n: number) => string = String) =>
  square.map((point) => point.map(decimals).join(between)).join("\n");

describe("points of an outline, however the file writes them", () => {
  it.each([
    ["commas", rows(",")],
    ["semicolons", rows(";")],
    ["tabs", rows("\t")],
    ["spaces", rows("   ")],
    ["decimal commas with semicolons", rows(";", (n) => `${n},0`)],
    ["decimal commas with tabs", rows("\t", (n) => `${n},00`)],
    ["decimal commas with spaces", rows(" ", (n) => `${n},0`)],
    ["decimal points", rows(", ", (n) => `${n}.000`)],
    ["a byte order mark and a heading", `\uFEFFx_mm,y_mm\n${rows(",")}`],
    ["a heading with units in brackets", `X (mm);Y (mm)\n${rows(";")}`],
    ["more columns with a heading", `n,y,x\n${square.map(([x, y], n) => `${n},${y},${x}`).join("\n")}`],
    [
      "Windows line ends, blank lines and remarks",
      `# traced lying\r\n\r\n${rows(";").replaceAll("\n", "\r\n")}\r\n`,
    ],
    ["quoted cells", rows(",", (n) => `"${n}"`)],
    ["a last point that repeats the first", `${rows(",")}\n0,0`],
    ["an empty last column", `${rows(";").replaceAll("\n", ";\n")};`],
  ])("%s", (_name, text) => {
    const { outlines, notes } = readCsv(text);
    expect(outlines[0]).toMatchObject({ areaMm2: 600, widthMm: 30, lengthMm: 20, problem: null });
    expect(notes).toEqual([]);
  });

  it("a heading in centimetres or inches is turned into millimetres", () => {
    const cm = readCsv(`x cm,y cm\n${rows(",", (n) => String(n / 10))}`).outlines[0]!;
    const inches = readCsv(`x_in,y_in\n${rows(",", (n) => String(n / 25.4))}`).outlines[0]!;
    expect(cm.areaMm2).toBeCloseTo(600, 9);
    expect(inches.areaMm2).toBeCloseTo(600, 9);
  });

  it("ends far apart are joined, and it says so", () => {
    const arc = Array.from({ length: 40 }, (_, i) => `${15 * Math.cos(i / 8)},${15 * Math.sin(i / 8)}`).join(
      "\n",
    );
    const { notes } = readCsv(arc);
    expect(notes[0]).toMatchObject({ code: "joined" });
  });

  it("one that crosses itself says where", () => {
    const { problem } = readCsv("0,0\n20,20\n20,0\n0,20").outlines[0]!;
    expect(problem).toMatchObject({ code: "crossesItself", params: { xMm: 10, yMm: 10 } });
    expect(problem!.text).toContain("10.0 mm across and 10.0 mm up");
  });
});

describe("what cannot be an outline is refused with the line", () => {
  it.each([
    ["nothing", "", "empty"],
    ["two points", "0,0\n10,10", "noOutline"],
    ["points in a row", "0,0\n10,10\n20,20", "noOutline"],
    ["words among the numbers", "0,0\n10,x\n20,0", "notNumbers"],
    ["a word where a number was", "0,0\n10,\n20,0", "columns"],
    ["three columns without a heading", "0,0,0\n10,0,0\n10,10,0", "columns"],
    ["decimal commas that also part the columns", "31,5,20,1\n30,5,19,1\n29,5,10,1", "columns"],
    ["headings that name no axes", "length,width\n31,28\n30,27\n1,1", "headings"],
    ["pixels", "x px,y px\n0,0\n300,0\n300,200", "unit"],
    ["numbers beyond all measure", "0,0\n1e99,1e99\n1e99,0\n", "read"],
  ])("%s", (_name, text, code) => {
    if (code === "read") expect(readCsv(text).outlines[0]!.widthMm).toBe(1e99);
    else expect(faultOf(text).code).toBe(code);
  });

  it("names the line of the file, heading and blank lines counted", () => {
    expect(faultOf("x,y\n\n0,0\n10,ten\n1,1").text).toContain("Line 4");
  });
});
