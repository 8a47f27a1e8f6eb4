import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type TestBench, testBench } from "../../../test/server/bench.ts";

let bench: TestBench;
beforeAll(async () => {
  bench = await testBench(undefined, { allowedHosts: ["clinic-desk.lan"] });
});
afterAll(() => bench.close());

describe("the name a request is sent to", () => {
  it.each([
    "localhost",
    "localhost:4747",
    "127.0.0.1:4747",
    "[::1]:4747",
    "LOCALHOST:1",
    "clinic-desk.lan:4747",
  ])("%s is the bench's own", async (host) => {
    expect((await bench.get("/api/session", { host })).status).toBe(200);
  });

  it.each([
    "evil.example",
    "evil.example:4747",
    "localhost.evil.example",
    "127.0.0.1.evil.example",
    "127.0.0.2",
    "localhost:x",
    "a b",
    "[::2]",
  ])("%j is refused: another page may have led that name here", async (host) => {
    const answer = await bench.get("/api/session", { host });
    expect([answer.status, answer.json.error.code]).toEqual([403, "hostRefused"]);
  });

  it("is looked at for pages and writes too", async () => {
    expect((await bench.get("/", { host: "evil.example" })).status).toBe(403);
    expect((await bench.post("/api/entries", { entries: [] }, { host: "evil.example" })).status).toBe(403);
  });
});

describe("a write", () => {
  const write = (headers: Record<string, string>, body: unknown = { entries: [] }) =>
    bench.post("/api/entries", body, headers);

  it.each([
    [{}],
    [{ origin: "http://localhost:80", host: "localhost:80" }],
    [{ origin: "http://127.0.0.1:4747", host: "127.0.0.1:4747" }],
    [{ "sec-fetch-site": "same-origin", origin: "http://localhost", host: "localhost" }],
    [{ "sec-fetch-site": "none" }],
  ])("with %j comes from the bench's own page, or from no page", async (headers) => {
    expect((await write(headers)).json.error.code).toBe("refused");
  });

  it.each([
    [{ origin: "http://evil.example" }],
    [{ origin: "http://localhost:9999", host: "localhost:4747" }],
    [{ origin: "https://localhost:4747", host: "localhost:4747" }],
    [{ origin: "null" }],
    [{ "sec-fetch-site": "cross-site" }],
    [{ "sec-fetch-site": "same-site" }],
  ])("with %j comes from elsewhere and is refused", async (headers) => {
    const answer = await write(headers);
    expect([answer.status, answer.json.error.code]).toEqual([403, "originRefused"]);
  });

  it.each(["text/plain", "application/x-www-form-urlencoded", "application/jsonp", "text/json", ""])(
    "as %j is what a foreign form could send, and is refused",
    async (type) => {
      const answer = await write({ "content-type": type }, "{}");
      expect([answer.status, answer.json.error.code]).toEqual([415, "wrongType"]);
    },
  );

  it("by another method than the interface has finds nothing", async () => {
    const reply = await bench.bench.inject({
      method: "DELETE",
      url: "/api/entries",
      headers: { "content-type": "application/json" },
      payload: "{}",
    });
    expect(reply.statusCode).toBe(404);
  });
});

describe("too many requests", () => {
  it("are told to wait, in the words of the table", async () => {
    const busy = await testBench();
    let answer = await busy.get("/api/protocol");
    let count = 1;
    while (answer.status !== 429 && count < 1300) {
      answer = await busy.get("/api/protocol");
      count += 1;
    }
    expect(count).toBe(1201);
    expect(answer.json).toEqual({
      error: { code: "tooManyRequests", sentence: "Too many requests at once. Wait a minute and try again." },
    });
    await busy.close();
  });
});
