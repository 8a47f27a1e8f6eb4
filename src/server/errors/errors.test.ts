import { Writable } from "node:stream";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type TestBench, testBench } from "../../../test/server/bench.ts";
import { type ErrorCode, errorTable } from "../index.ts";
import { benchLog } from "../log.ts";
import { Refusal, refusalOf } from "./refusal.ts";

describe("the table of errors", () => {
  it.each(Object.entries(errorTable))(
    "%s has a status of its own kind and a sentence to read",
    (_code, { status, sentence }) => {
      expect(status).toBeGreaterThanOrEqual(400);
      expect(status).toBeLessThan(600);
      expect(sentence).toMatch(/^[A-Z].*\.$/);
    },
  );

  it.each([
    [{ code: "SQLITE_BUSY" }, "busy"],
    [{ code: "FST_ERR_CTP_BODY_TOO_LARGE", statusCode: 413 }, "tooLarge"],
    [{ statusCode: 418 }, "badRequest"],
    [new Refusal("whichStoma"), "whichStoma"],
  ] as [unknown, ErrorCode][])("%j is answered as %s", (error, code) => {
    expect(refusalOf(error)?.code).toBe(code);
  });

  it.each([new Error("no"), null, undefined, "text", { statusCode: 500 }, { statusCode: 200 }])(
    "%s was not foreseen",
    (error) => {
      expect(refusalOf(error)).toBeNull();
    },
  );
});

describe("an error that nobody foresaw", () => {
  let bench: TestBench;
  let logged: string;
  beforeEach(async () => {
    logged = "";
    const sink = new Writable({
      write(chunk, _encoding, done) {
        logged += chunk;
        done();
      },
    });
    bench = await testBench(undefined, { log: benchLog(sink) });
    bench.store.counts = () =>
      Promise.reject(Object.assign(new TypeError("Edda Voss is not iterable"), { code: "E_TEST" }));
  });
  afterEach(() => bench.close());

  it("is told without its inside, under an id that is in the log", async () => {
    const { status, json, text } = await bench.get("/api/session");
    expect(status).toBe(500);
    expect(json.error).toMatchObject({ code: "internal", sentence: errorTable.internal.sentence });
    expect(text).not.toMatch(/Edda|iterable|TypeError/);
    const line = JSON.parse(logged.trim().split("\n").at(-1)!);
    expect(line).toMatchObject({
      requestId: json.error.id,
      error: "TypeError",
      code: "E_TEST",
      msg: "unforeseen error",
    });
    expect(line.at.length).toBeGreaterThan(0);
    expect(logged).not.toContain("Edda");
  });

  it("in the middle of an export breaks it off, and its message stays out of the log too", async () => {
    bench.store.counts = () => Promise.resolve({ people: 0, active: 0, entries: 5 });
    bench.store.entriesAfter = () => Promise.reject(new SyntaxError("Edda Voss is no JSON"));
    await expect(bench.get("/api/export.jsonl")).rejects.toThrow();
    expect(logged).toContain("SyntaxError");
    expect(logged).not.toContain("Edda");
  });
});
