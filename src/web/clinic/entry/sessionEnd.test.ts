import { describe, expect, it } from "vitest";
import { endOf } from "./sessionEnd.ts";

const minute = 60_000;

describe("the end of a session", () => {
  it("is put off by use while the session may still last", () => {
    const end = endOf({ answeredMs: 1000, endsInMs: { idle: 30 * minute, absolute: 700 * minute } });
    expect(end).toEqual({ atMs: 1000 + 30 * minute, renewable: true });
  });

  it("comes whatever is done once a session has lasted as long as it may", () => {
    const end = endOf({ answeredMs: 1000, endsInMs: { idle: 30 * minute, absolute: 10 * minute } });
    expect(end).toEqual({ atMs: 1000 + 10 * minute, renewable: false });
  });

  it("is none where nobody is signed in", () => {
    expect(endOf({ answeredMs: 1000, endsInMs: null }).atMs).toBe(Number.POSITIVE_INFINITY);
  });
});
