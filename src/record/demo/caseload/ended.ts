import type { Scenario } from "../scenario.ts";
import { seals, systems } from "../systems.ts";
import { byGuide, settledAt, shrinking, worn } from "./brief.ts";

/** In hospital, reversed, moved away or died: kept in the record and on no list. */
export const ended: Scenario[] = [
  {
    person: {
      name: "Ilse Vandermoor",
      ageYears: 65,
      identifier: "TH-0452",
      phone: "555-0150",
      caredForBy: "self",
    },
    homeSince: 40,
    stomas: [
      {
        type: "ileostomy",
        construction: "loop",
        side: "right",
        surgery: { daysAgo: 48 },
        knownSince: 46,
        until: 9,
        size: shrinking(42, 33, 15, 20, { widthShare: 0.8 }),
        readings: byGuide(7, 11),
        clearanceMm: 1.8,
        systems: [worn(systems.drainableFlat, 46, 3.5, seals.sound)],
      },
    ],
    events: [{ what: "admitted", daysAgo: 9, note: "High output and dizziness; on the surgical ward." }],
  },
  {
    person: {
      name: "Jonas Petrauskov",
      ageYears: 50,
      identifier: "TH-0366",
      phone: "555-0151",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "ileostomy",
        construction: "loop",
        side: "right",
        surgery: { daysAgo: 140 },
        knownSince: 90,
        until: 34,
        size: settledAt(34, 21, { widthShare: 0.8 }),
        readings: byGuide(14, 40),
        clearanceMm: 1.8,
        systems: [worn(systems.drainableFlat, 90, 3.5, seals.sound)],
      },
    ],
    events: [{ what: "reversed", daysAgo: 33, stoma: 0, note: "Closed without trouble; wound healing." }],
  },
  {
    person: {
      name: "Beatrix Ollerdale",
      ageYears: 86,
      identifier: "TH-0311",
      caredForBy: "helper",
      helperName: "Nell Ollerdale",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 500 },
        knownSince: 90,
        until: 21,
        size: settledAt(35.5, 8),
        readings: byGuide(28, 30),
        clearanceMm: 2.5,
        systems: [worn(systems.drainableFlat, 90, 3, seals.sound)],
      },
    ],
    events: [{ what: "died", daysAgo: 20, note: "At home, peacefully; daughter rang." }],
  },
  {
    person: {
      name: "Samir Talhouki",
      ageYears: 37,
      identifier: "TH-0345",
      phone: "555-0152",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 380 },
        knownSince: 90,
        until: 46,
        size: settledAt(29.4, 24),
        readings: byGuide(28, 50),
        clearanceMm: 1.8,
        systems: [worn(systems.twoPieceDrainable, 90, 4, seals.sound)],
      },
    ],
    events: [{ what: "movedAway", daysAgo: 45, note: "Record sent to his new clinic." }],
  },
];
