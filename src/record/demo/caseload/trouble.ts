import type { Scenario } from "../scenario.ts";
import { seals, systems } from "../systems.ts";
import { byGuide, settledAt, shrinking, wardGuide, worn } from "./brief.ts";

/** Those whom the list for today is to name, each in trouble of a different kind. */
export const trouble: Scenario[] = [
  {
    // The stoma has shrunk by six millimetres since the opening was cut.
    person: {
      name: "Dafydd Penllwyn",
      ageYears: 64,
      identifier: "TH-0464",
      phone: "555-0130",
      caredForBy: "self",
    },
    homeSince: 22,
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 31 },
        knownSince: 29,
        size: shrinking(46, 31, 13, 23),
        readings: byGuide(7, 1),
        clearanceMm: 2,
        readingsSinceCut: 3,
        systems: [worn(systems.drainableFlat, 29, 3.5, seals.fair)],
      },
    ],
    notes: [
      { daysAgo: 1, text: "Still cuts to the sheet from the ward. Skin red on the left, itching at night." },
    ],
  },
  {
    // A hernia: the base has grown past the opening.
    person: {
      name: "Soraya Khalvandi",
      ageYears: 59,
      identifier: "TH-0398",
      phone: "555-0131",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 210 },
        knownSince: 90,
        size: settledAt(33, 10, { rise: { since: 16, mm: 8 } }),
        readings: byGuide(14, 4),
        clearanceMm: 2,
        readingsSinceCut: 1,
        systems: [worn(systems.drainableFlat, 90, 3.5, seals.fair)],
      },
    ],
    events: [{ what: "hernia", daysAgo: 14, stoma: 0, note: "Bulge beside the stoma, seen by the surgeon." }],
  },
  {
    // By the curve the opening stopped fitting since the last reading.
    person: {
      name: "Pilar Montejara",
      ageYears: 43,
      identifier: "TH-0472",
      phone: "555-0132",
      caredForBy: "self",
    },
    homeSince: 17,
    stomas: [
      {
        type: "ileostomy",
        construction: "loop",
        side: "right",
        surgery: { daysAgo: 25 },
        knownSince: 22,
        size: shrinking(47, 28, 15, 22),
        readings: byGuide(6, 4),
        clearanceMm: 2.8,
        systems: [worn(systems.twoPieceDrainable, 22, 3.5, seals.sound)],
      },
    ],
  },
  {
    // Wears of a day and a half: a low stoma in a flat barrier.
    person: {
      name: "Emrik Taalunen",
      ageYears: 67,
      identifier: "TH-0441",
      phone: "555-0133",
      caredForBy: "self",
    },
    homeSince: 60,
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 70 },
        knownSince: 66,
        size: shrinking(35, 28, 15, 11),
        readings: byGuide(10, 6),
        clearanceMm: 1.8,
        systems: [worn(systems.drainableFlat, 66, 3.5, seals.poor)],
      },
    ],
    notes: [{ daysAgo: 6, text: "Height 11 mm. Asked whether a convex barrier could be tried." }],
  },
  {
    // Leaks again and again at three to five o'clock.
    person: {
      name: "Yuki Haramatsu",
      ageYears: 52,
      identifier: "TH-0457",
      phone: "555-0134",
      caredForBy: "self",
    },
    homeSince: 35,
    stomas: [
      {
        type: "ileostomy",
        construction: "loop",
        side: "right",
        surgery: { daysAgo: 44 },
        knownSince: 41,
        size: shrinking(41, 32, 15, 18, { widthShare: 0.85 }),
        readings: byGuide(7, 2),
        clearanceMm: 1.8,
        systems: [
          worn(systems.twoPieceDrainable, 41, 3.5, { shape: 2.6, scaleDays: 2.5, weakHours: [3, 4, 4, 5] }),
        ],
      },
    ],
  },
  {
    // New, and not measured for almost two weeks.
    person: {
      name: "Grethe Nordvaag",
      ageYears: 76,
      identifier: "TH-0463",
      phone: "555-0135",
      caredForBy: "self",
    },
    homeSince: 24,
    stomas: [
      {
        type: "urostomy",
        construction: "conduit",
        side: "right",
        surgery: { daysAgo: 33 },
        knownSince: 31,
        size: shrinking(32, 25, 15, 19),
        readings: byGuide(6, 13),
        clearanceMm: 1.6,
        systems: [worn(systems.tapFlat, 31, 3.5, seals.sound)],
      },
    ],
    notes: [{ daysAgo: 6, text: "Missed the visit: no transport. Will ring." }],
  },
  {
    // Came home from another hospital with pouches cut there; never measured here.
    person: {
      name: "Aurelio Castabene",
      ageYears: 57,
      identifier: "TH-0479",
      phone: "555-0136",
      caredForBy: "self",
    },
    homeSince: 3,
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 11 },
        knownSince: 3,
        size: shrinking(40, 33, 15, 12),
        readings: null,
        clearanceMm: null,
        systems: [worn(systems.drainableFlat, 3, 3, seals.sound)],
      },
    ],
    notes: [{ daysAgo: 3, text: "Referred after surgery elsewhere. No sizes in the letter." }],
  },
  {
    // Settled, and past the monthly measuring.
    person: {
      name: "Philippa Wetherleigh",
      ageYears: 81,
      identifier: "TH-0214",
      caredForBy: "helper",
      helperName: "Orla Wetherleigh",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 1500, precision: "month" },
        knownSince: 95,
        size: settledAt(36.6, 8),
        readings: byGuide(28, 38),
        clearanceMm: 2.5,
        systems: [worn(systems.drainableFlat, 95, 3.5, seals.sound)],
      },
    ],
  },
  {
    // Measured with the ward's guide, whose rings leave the size in doubt; due tomorrow.
    person: {
      name: "Zainab Olurenti",
      ageYears: 40,
      identifier: "TH-0469",
      phone: "555-0137",
      caredForBy: "self",
    },
    homeSince: 13,
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 21 },
        knownSince: 19,
        size: shrinking(38, 30, 14, 24),
        readings: byGuide(6, 6, wardGuide),
        clearanceMm: 1.2,
        systems: [worn(systems.drainableFlat, 19, 3.5, seals.sound)],
      },
    ],
  },
];
