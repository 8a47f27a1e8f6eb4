import { describe, expect, it } from "vitest";
import { linesOf, readJson, textOf } from "./index.ts";

describe("a document that is not JSON", () => {
  it.each([
    ["a comma too many", '{"changes": {"maxGapMm": 2,}}', 'is not JSON from column 28 on (got "}}"'],
    ["a bare word", '{\n  "changes": nothing\n}', 'is not JSON from line 2, column 14 on (got "nothing"'],
    ["single quotes", "{'a': 1}", "is not JSON from column 2 on"],
    ["a missing colon", '{"a" 1}', "is not JSON from column 6 on"],
    ["a number that is none", '{"a": NaN}', "is not JSON from column 7 on"],
    ["a comment", "[1 // one\n]", "is not JSON from line 1, column 4 on"],
    ["an end that comes early", '{"changes": ', "ends before its JSON does, at column 13"],
    ["brackets without end", "[".repeat(200_000), "ends before its JSON does"],
    ["nothing at all", " \n", "is empty"],
    ["two documents", "{} {}", "is not JSON from column 4 on"],
  ])("is refused for %s, and the place is named", (_what, text, sentence) => {
    expect(() => readJson(text)).toThrow(sentence);
  });

  it("is refused as text when it is not UTF-8", () => {
    expect(() => textOf(Uint8Array.of(0x7b, 0xff, 0x7d))).toThrow("is not UTF-8 text");
  });
});

describe("a document that is JSON", () => {
  it("may begin with a byte order mark", () => {
    expect(readJson(textOf(Buffer.from("\ufeff{}")))).toEqual({});
  });
});

describe("lines", () => {
  const linesIn = async (...chunks: string[]) => {
    const lines: string[] = [];
    async function* stream() {
      for (const chunk of chunks) yield Buffer.from(chunk);
    }
    for await (const line of linesOf(stream())) lines.push(textOf(line));
    return lines;
  };

  it("are the same however the stream is cut", async () => {
    expect(await linesIn("one\ntwo\n\nthree")).toEqual(["one", "two", "", "three"]);
    expect(await linesIn("o", "ne\nt", "wo", "\n", "\nthr", "ee")).toEqual(["one", "two", "", "three"]);
  });

  it("need no line end after the last, and none is added for one", async () => {
    expect(await linesIn("one\n")).toEqual(["one"]);
    expect(await linesIn("")).toEqual([]);
  });
});
