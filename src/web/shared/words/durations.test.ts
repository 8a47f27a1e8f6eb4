import { describe, expect, it } from "vitest";
import { about, agoWords, duration } from "./durations.ts";

describe("a wait in words", () => {
  it("names minutes and seconds, and leaves out what is nothing", () => {
    expect(duration(45)).toBe("45 seconds");
    expect(duration(60)).toBe("1 minute");
    expect(duration(65)).toBe("1 minute 5 seconds");
    expect(duration(900)).toBe("15 minutes");
  });

  it("counts a begun second, so that nobody tries too early", () => {
    expect(duration(0.2)).toBe("1 second");
    expect(duration(59.01)).toBe("1 minute");
  });

  it("needs no seconds beside hours", () => {
    expect(duration(7830)).toBe("2 hours 10 minutes");
    expect(duration(3605)).toBe("1 hour");
  });

  it("that is over is no time", () => {
    expect(duration(0)).toBe("no time");
    expect(duration(-3)).toBe("no time");
  });
});

describe("how long ago or still to come", () => {
  const minute = 60_000;
  it("is told as exactly as it matters", () => {
    expect(agoWords(20_000)).toBe("just now");
    expect(agoWords(5 * minute)).toBe("5 minutes ago");
    expect(agoWords(3 * 60 * minute)).toBe("3 hours ago");
    expect(agoWords(9 * 24 * 60 * minute)).toBe("9 days ago");
    expect(about(20_000)).toBe("less than a minute");
    expect(about(7 * 24 * 60 * minute)).toBe("7 days");
  });
});
