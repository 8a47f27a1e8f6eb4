import { describe, expect, it } from "vitest";
import {
  change,
  day,
  entry,
  instant,
  now,
  round,
  samplePerson,
  stomaOf,
  zone,
} from "../../../../../test/record/samples.ts";
import { defaultProtocol } from "../../../../domain/protocol/index.ts";
import type { BodyOf, Entry } from "../../../../record/entry/index.ts";
import { healingOf } from "../../../../record/story/index.ts";
import { ribbonCaption, ribbonWords } from "./captions.ts";
import { ribbonFacts, tellingAxis } from "./facts.ts";
import { ribbonLayout } from "./layout.ts";
import { axisTicks, hasStretches, usualStretch, windowOf } from "./window.ts";

const person = samplePerson();
const { about } = person;
const at = { protocol: defaultProtocol, zone, nowMs: now };

const measured = (on: string, body: BodyOf<"measured">) => entry("measured", body, { ...about, at: day(on) });
const cut = (on: string, opening: BodyOf<"cut">["opening"]) =>
  entry("cut", { opening, how: "sheet" }, { ...about, at: day(on) });
const changed = (time: string, body: BodyOf<"changed"> = change()) =>
  entry("changed", body, { ...about, at: instant(time) });
const oval = (lengthMm: number, widthMm: number) => ({
  guide: { shape: "oval" as const, lengthMm, widthMm, tiltDeg: 0 },
});
const disc = (diameterMm: number) => ({ guide: { shape: "round" as const, diameterMm } });
const stoma = (...entries: Entry[]) => stomaOf([...person.entries, ...entries]);
const factsOf = (one: ReturnType<typeof stoma>) => ribbonFacts(one, null, "longest", at);

describe("the stretch of days that is shown", () => {
  it("is the first eight weeks while the stoma is new", () => {
    expect(hasStretches(27)).toBe(false);
    expect(windowOf(usualStretch(27), 27)).toEqual({ fromDay: 0, toDay: 56 });
  });

  it("is the last eight weeks with room ahead once it is not", () => {
    expect(hasStretches(118)).toBe(true);
    expect(windowOf(usualStretch(118.4), 118.4)).toEqual({ fromDay: 77, toDay: 133 });
    expect(windowOf("all", 118.4)).toEqual({ fromDay: 0, toDay: 133 });
  });

  it("has a tick each week, and fewer where the room asks", () => {
    const weekly = axisTicks({ fromDay: 0, toDay: 56 }, "2026-10-29", 9);
    expect(weekly.map((tick) => tick.day)).toEqual([0, 7, 14, 21, 28, 35, 42, 49, 56]);
    expect(weekly[4]?.on).toBe("2026-11-26");
    expect(axisTicks({ fromDay: 0, toDay: 56 }, "2026-10-29", 5).map((tick) => tick.day)).toEqual([
      0, 14, 28, 42, 56,
    ]);
  });
});

describe("what the ribbon draws", () => {
  it("a guide reading reaches down by its ring step, a tracing is a point", () => {
    const { readings } = factsOf(
      stoma(
        measured("2026-10-27", round(38)),
        measured("2026-11-03", { method: "tracing", shape: disc(35) }),
      ),
    );
    expect(readings.map(({ day: on, mm, stepMm }) => [on, mm, stepMm])).toEqual([
      [7, 38, 3.175],
      [14, 35, null],
    ]);
  });

  it("an opening lasts until the next one is put into use", () => {
    const { openings } = factsOf(stoma(cut("2026-10-27", disc(42)), cut("2026-11-03", disc(39))));
    expect(openings.map(({ fromDay, toDay, mm }) => [fromDay, toDay, mm])).toEqual([
      [7, 14, 42],
      [14, null, 39],
    ]);
  });

  it("a change is early only if nobody planned it and the barrier came off before its day", () => {
    const { changes } = factsOf(
      stoma(
        changed("2026-11-01T08:00:00Z"),
        changed("2026-11-03T08:00:00Z", change("leakPastEdge")),
        changed("2026-11-08T08:00:00Z", change("leakUnderBarrier")),
        changed("2026-11-09T08:00:00Z"),
        changed("2026-11-10T08:00:00Z", change("planned", { what: "pouchOnly" })),
      ),
    );
    expect(changes.map(({ early, leak, barrier }) => [early, leak, barrier])).toEqual([
      [false, false, true],
      [true, true, true],
      [false, true, true],
      [false, false, true],
      [false, false, false],
    ]);
  });

  it("first the way across in which the opening leaves most skin bare", () => {
    const same = stoma(measured("2026-11-03", { method: "tracing", shape: oval(31, 28) }));
    expect(tellingAxis(same)).toBe("longest");
    const roundHole = stoma(
      measured("2026-11-03", { method: "tracing", shape: oval(31, 28) }),
      cut("2026-11-03", disc(36.5)),
    );
    expect(tellingAxis(roundHole)).toBe("narrowest");
  });

  it("keeps every size inside its row and the days inside the plate", () => {
    const one = stoma(
      measured("2026-10-22", round(41)),
      measured("2026-10-27", round(38)),
      measured("2026-11-03", round(36)),
      measured("2026-11-10", round(33)),
      cut("2026-10-27", disc(45)),
    );
    const facts = ribbonFacts(one, healingOf(one, defaultProtocol), "longest", at);
    const window = windowOf("first", facts.nowDay);
    for (const [width, text] of [
      [736, 1],
      [358, 1],
      [358, 2],
    ] as const) {
      const layout = ribbonLayout(facts, window, width, text);
      expect(layout.x(0)).toBeGreaterThanOrEqual(0);
      expect(layout.x(56)).toBeLessThanOrEqual(width);
      const sizes = [
        45,
        41,
        33 - 3.175,
        ...(facts.forecast ?? []).flatMap((one) => [one.lower80, one.upper80]),
      ];
      for (const mm of sizes) {
        expect(layout.y(mm)).toBeGreaterThan(layout.size[0]);
        expect(layout.y(mm)).toBeLessThan(layout.size[1]);
      }
    }
  });

  it("says in words what it holds and how to read it", () => {
    const facts = factsOf(stoma(measured("2026-10-27", round(38)), changed("2026-11-03T08:00:00Z")));
    expect(ribbonWords(facts, { fromDay: 0, toDay: 56 })).toBe(
      "Stoma size, openings, changes and leaks from day 0 to day 56: 1 reading, 1 change, 0 leaks.",
    );
    expect(ribbonCaption(facts)).toBe("Upright bar: a guide reading, as tall as its ring step (3.2 mm).");
  });

  it("says that nothing was measured rather than leave an empty drawing", () => {
    expect(ribbonCaption(factsOf(stoma()))).toBe("Not measured yet: the size and its curve will stand here.");
  });

  it("gives no day of recovery where nobody knows the day of surgery", () => {
    const undated = samplePerson({}, { surgeryOn: undefined });
    const facts = factsOf(stomaOf(undated.entries));
    expect(facts.surgeryKnown).toBe(false);
    const month = samplePerson({}, { surgeryOn: { date: "2026-10-01", precision: "month" } });
    expect(factsOf(stomaOf(month.entries)).surgeryKnown).toBe(false);
  });
});
