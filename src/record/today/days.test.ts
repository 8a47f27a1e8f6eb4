import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dateOf } from "../entry/index.ts";
import { ZoneDays } from "./days.ts";

describe("the day on which an instant fell", () => {
  it.each([
    "Europe/London",
    "America/Santiago",
    "Asia/Kathmandu",
    "Pacific/Kiritimati",
    "Pacific/Pago_Pago",
    "UTC",
  ])("in %s is the one that its clocks showed, through every clock change", (zone) => {
    const days = new ZoneDays(zone);
    const instants = fc.date({
      min: new Date("2015-01-01T00:00:00Z"),
      max: new Date("2035-01-01T00:00:00Z"),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(instants, (instant) => {
        expect(days.dayOf(instant.getTime())).toBe(dateOf({ instant: instant.toISOString(), zone }));
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it("begins an hour late where midnight does not exist", () => {
    const days = new ZoneDays("America/Santiago");
    expect(new Date(days.startMs("2026-09-06")).toISOString()).toBe("2026-09-06T04:00:00.000Z");
    expect(days.dayOf(Date.parse("2026-09-06T03:59:59.999Z"))).toBe("2026-09-05");
  });
});
