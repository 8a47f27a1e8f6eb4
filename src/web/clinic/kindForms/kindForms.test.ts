import { describe, expect, it } from "vitest";
import type { BodyOf } from "../../../record/entry/index.ts";
import { kinds } from "../../../record/entry/index.ts";
import { type FormKind, formOf } from "./forms.ts";
import { atOf, whenNow, whenOf } from "./when.tsx";

const zone = "Europe/London";

const bodies: { [K in FormKind]: BodyOf<K>[] } = {
  skin: [
    { findings: [], note: "dry and whole" },
    {
      about: { guide: { shape: "round", diameterMm: 30 } },
      findings: [
        { what: "surfaceGone", place: { hours: { from: 10, to: 2 }, reachMm: { from: 0, to: 6.5 } } },
        {
          what: "bleeding",
          place: {
            outline: [
              [20, 0],
              [24, 0],
              [22, 5],
            ],
          },
        },
      ],
      feels: ["itch", "pain"],
    },
  ],
  consented: [
    { about: "photographs", purposes: ["keep", "teach"], given: true, how: "written", by: "person" },
    {
      about: "photographs",
      purposes: ["teach"],
      given: false,
      how: "spoken",
      by: "representative",
      representativeName: "Per Farrowby",
    },
  ],
  person: [
    { name: "Edda Farrowby", birthDate: "1958-03-02", caredForBy: "helper", helperName: "Per" },
    {
      name: "Bram Oyelaran",
      identifier: "R 1182",
      interpreter: true,
      language: "Yoruba",
      homeOn: "2026-11-16",
    },
  ],
  stoma: [
    {
      type: "ileostomy",
      construction: "end",
      surgeryOn: { date: "2026-10-29", precision: "day" },
      side: "right",
    },
    { type: "colostomy", construction: "loop", surgeryOn: { date: "2026-05-01", precision: "month" } },
    { type: "urostomy", construction: "conduit", surgeryOn: { date: "2019-01-01", precision: "year" } },
    { type: "fistula", construction: "other", label: "upper" },
  ],
  measured: [
    {
      method: "guide",
      shape: { guide: { shape: "oval", lengthMm: 31, widthMm: 28.5, tiltDeg: 10 } },
      stepMm: 3.175,
      heightMm: 18,
      posture: "lying",
    },
    {
      method: "tracing",
      shape: {
        outline: [
          [0, 15],
          [14, 0],
          [0, -15],
          [-14, 0],
        ],
      },
      source: "pen, 100 mm bar",
      sdMm: 0.4,
    },
    {
      method: "photo",
      shape: {
        outline: [
          [0, 15],
          [14, 0],
          [0, -15],
          [-14, 0],
        ],
      },
      sdMm: 0.6,
      photo: { scale: "frameCard", tiltDeg: 4, markersFound: 8, adjusted: false },
    },
  ],
  cut: [{ opening: { guide: { shape: "round", diameterMm: 36.5 } }, clearanceMm: 2, how: "sheet" }],
  fitted: [
    {
      system: {
        name: "drainable one-piece, convex, cut-to-fit 10-45 mm",
        pieces: "one",
        closure: "drainable",
        barrier: "convex",
        opening: "cutToFit",
        maxOpeningMm: 45,
        starterHoleMm: 10,
      },
      plannedIntervalDays: 3.5,
    },
    {
      system: {
        name: "closed, pre-cut 30",
        pieces: "one",
        closure: "closed",
        barrier: "flat",
        opening: "preCut",
        preCutMm: 30,
      },
    },
  ],
  changed: [
    { what: "barrier", why: "planned" },
    {
      what: "barrier",
      why: "leakUnderBarrier",
      leakHours: [3, 4, 5],
      lastSoundAt: "2026-11-24T21:40:00.000Z",
      note: "after supper",
    },
  ],
  event: [{ what: "admitted", note: "for the kidney" }],
  noted: [{ text: "Rang her: sleeping through." }],
};

describe.each(Object.entries(bodies) as [FormKind, BodyOf<FormKind>[]][])(
  "the form of kind %s",
  (kind, given) => {
    it("gives back what a correction of it began with", () => {
      const form = formOf(kind);
      for (const body of given) {
        const read = form.read(form.fill(body, zone), zone);
        expect(read.wrong).toBeUndefined();
        expect(JSON.parse(JSON.stringify(read.body))).toEqual(body);
        expect(kinds[kind].body.safeParse(JSON.parse(JSON.stringify(read.body))).success).toBe(true);
      }
    });
  },
);

describe("what a form refuses", () => {
  it("a person without a second identifier, because sheets carry two", () => {
    const form = formOf("person");
    const read = form.read({ ...form.blank(), name: "Ravi Tandekar" }, zone);
    expect(read.wrong).toHaveProperty("birthDate");
  });

  it("a size that is not a number, and keeps a decimal comma", () => {
    const form = formOf("fitted");
    const typed = form.fill(bodies.fitted[0]!, zone);
    expect(form.read({ ...typed, maxOpeningMm: "wide" }, zone).wrong).toEqual({
      maxOpeningMm: "Write a number, such as 31.5.",
    });
    const read = form.read({ ...typed, maxOpeningMm: "44,5" }, zone);
    expect(read.body).toMatchObject({ system: { maxOpeningMm: 44.5 } });
  });

  it("half a time at which the seal was last seen sound", () => {
    const form = formOf("changed");
    const read = form.read({ ...form.blank(), why: "leakPastEdge", soundDate: "2026-11-24" }, zone);
    expect(read.wrong).toHaveProperty("lastSoundAt");
  });

  it("nothing of a planned change: two presses are enough", () => {
    const form = formOf("changed");
    expect(form.read(form.blank(), zone).body).toEqual({ what: "barrier", why: "planned" });
  });
});

describe("when it happened", () => {
  it("is now, by the clinic's clock, until somebody says otherwise", () => {
    expect(whenNow("America/New_York", Date.parse("2026-11-25T02:30:00Z"))).toEqual({
      date: "2026-11-24",
      time: "21:30",
    });
  });

  it("is an instant with a time and a whole day without", () => {
    expect(atOf({ date: "2026-07-01", time: "08:10" }, zone)).toEqual({
      instant: "2026-07-01T07:10:00.000Z",
      zone,
    });
    expect(atOf({ date: "2026-07-01", time: "" }, zone)).toEqual({ date: "2026-07-01", precision: "day" });
    expect(atOf({ date: "", time: "08:10" }, zone)).toBeNull();
  });

  it("reads back as it was written", () => {
    const when = { date: "2026-10-25", time: "08:15" };
    expect(whenOf(atOf(when, zone)!)).toEqual(when);
  });
});
