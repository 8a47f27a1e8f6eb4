/**
 * Circular statistics against R's circular package.
 * @source test/reference/data/05-circular.json: R 4.2.2, circular 0.4-95; formulas inside the file. The first case is
 * circular::fisherB1, arrivals at an intensive care unit (Fisher 1993, B.1)
 */
import { describe, expect, it } from "vitest";
import { timesOfDay } from "../../src/domain/timesOfDay/index.ts";
import reference from "./data/05-circular.json" with { type: "json" };

const tolerance = 1e-9;

interface Case {
  id: string;
  hours: number[];
  n: number;
  mean_direction_hour: number | null;
  mean_resultant_length: number;
  circular_sd_hours: number | null;
  rayleigh_p: number;
}

describe.each((reference.cases as unknown as Case[]).map((one) => [one.id, one] as const))(
  "%s",
  (_id, one) => {
    const { n, meanHour, resultantLength, sdHours, rayleighP } = timesOfDay(one.hours);

    it("has the number of times and the resultant length of R", () => {
      expect(n).toBe(one.n);
      expect(Math.abs(resultantLength! - one.mean_resultant_length)).toBeLessThan(tolerance);
    });

    it("has the mean direction and circular deviation of R, where there is one", () => {
      if (one.mean_direction_hour === null) {
        expect([meanHour, sdHours]).toEqual([null, null]);
        return;
      }
      const apart = Math.abs(meanHour! - one.mean_direction_hour);
      expect(Math.min(apart, 24 - apart)).toBeLessThan(tolerance);
      expect(Math.abs(sdHours! - one.circular_sd_hours!)).toBeLessThan(tolerance);
    });

    it("has R's p of Rayleigh's test", () => {
      expect(Math.abs(rayleighP! - one.rayleigh_p)).toBeLessThan(tolerance * Math.max(one.rayleigh_p, 1e-6));
    });
  },
);
