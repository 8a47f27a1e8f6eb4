import type { Scenario } from "../scenario.ts";
import { seals, systems } from "../systems.ts";
import { byGuide, byTracing, settledAt, shrinking, worn } from "./brief.ts";

/** From two months to many years on, and well: measured every month. */
export const settled: Scenario[] = [
  {
    person: {
      name: "Casimir Wrzosnik",
      ageYears: 62,
      identifier: "TH-0437",
      phone: "555-0140",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 75 },
        knownSince: 72,
        size: shrinking(39, 31.4, 15, 9),
        readings: byGuide(10, 8),
        clearanceMm: 2,
        systems: [worn(systems.twoPieceClosed, 72, 4, seals.sound, { pouchesADay: 1.4 })],
      },
    ],
  },
  {
    person: {
      name: "Ruta Jankelevi",
      ageYears: 33,
      identifier: "TH-0429",
      phone: "555-0141",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 98 },
        knownSince: 84,
        size: shrinking(34, 27.3, 15, 26),
        readings: byGuide(21, 12),
        clearanceMm: 1.8,
        systems: [worn(systems.drainableFlat, 84, 4, seals.sound)],
      },
    ],
    events: [
      { what: "pregnancy", daysAgo: 20, note: "Twelve weeks. Own limits to be agreed with her midwife." },
    ],
  },
  {
    person: {
      name: "Eamon Garravane",
      ageYears: 74,
      identifier: "TH-0420",
      phone: "555-0142",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 130 },
        knownSince: 90,
        size: settledAt(30.5, 8),
        readings: byGuide(28, 20),
        clearanceMm: null,
        systems: [worn(systems.closedOnePiece, 90, 0.42, { shape: 3, scaleDays: 4 })],
      },
    ],
    notes: [{ daysAgo: 20, text: "Two or three closed pouches a day. Happy with it." }],
  },
  {
    person: {
      name: "Lakshmi Vellandur",
      ageYears: 49,
      identifier: "TH-0411",
      phone: "555-0143",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "urostomy",
        construction: "conduit",
        side: "right",
        surgery: { daysAgo: 160 },
        knownSince: 90,
        size: settledAt(25.4, 18),
        readings: byGuide(28, 9),
        clearanceMm: 1.8,
        systems: [worn(systems.tapFlat, 90, 4, seals.sound)],
      },
    ],
  },
  {
    person: {
      name: "Benedikt Hohlstein",
      ageYears: 69,
      identifier: "TH-0402",
      phone: "555-0144",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 190 },
        knownSince: 90,
        size: settledAt(28.6, 14, { widthShare: 0.92 }),
        readings: byGuide(28, 15),
        clearanceMm: 1.8,
        systems: [worn(systems.drainableConvex, 90, 3.5, seals.sound)],
      },
    ],
    events: [
      { what: "medicine", daysAgo: 30, note: "Slow-release tablets changed to liquid by his doctor." },
    ],
  },
  {
    person: {
      name: "Marisol Quintalba",
      ageYears: 56,
      identifier: "TH-0388",
      phone: "555-0145",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "loop",
        side: "left",
        surgery: { daysAgo: 240 },
        knownSince: 90,
        size: settledAt(52, 11, { widthShare: 0.75, tiltDeg: 60, lobes: 0.05 }),
        readings: byTracing(28, 18),
        clearanceMm: 2,
        systems: [worn(systems.largeDrainable, 90, 3, seals.sound)],
      },
    ],
    events: [{ what: "chemotherapy", daysAgo: 60, note: "Every third week until spring." }],
  },
  {
    person: {
      name: "Tevita Fonualoka",
      ageYears: 45,
      identifier: "TH-0375",
      phone: "555-0146",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 300 },
        knownSince: 90,
        size: settledAt(32.4, 23),
        readings: byGuide(28, 22),
        clearanceMm: 1.8,
        systems: [worn(systems.twoPieceDrainable, 90, 4, seals.sound)],
      },
    ],
  },
  {
    person: {
      name: "Agnes Thistlewold",
      ageYears: 84,
      identifier: "TH-0350",
      sight: "Macular degeneration: feels for the ring.",
      caredForBy: "helper",
      helperName: "Home-care team, Thornmere north",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 420, precision: "month" },
        knownSince: 90,
        size: settledAt(34.3, 7),
        readings: byGuide(28, 6),
        clearanceMm: 2.5,
        systems: [worn(systems.drainableFlat, 90, 3, seals.sound)],
      },
    ],
  },
  {
    person: {
      name: "Stellan Rydmark",
      ageYears: 71,
      identifier: "TH-0331",
      phone: "555-0147",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "urostomy",
        construction: "conduit",
        side: "right",
        label: "Urostomy",
        surgery: { daysAgo: 610 },
        knownSince: 90,
        size: settledAt(26.6, 20),
        readings: byGuide(28, 11),
        clearanceMm: 1.8,
        systems: [worn(systems.tapFlat, 90, 3.5, seals.sound)],
      },
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        label: "Colostomy",
        surgery: { daysAgo: 610 },
        knownSince: 90,
        size: settledAt(35.2, 9),
        readings: byGuide(28, 11),
        clearanceMm: 2.5,
        systems: [worn(systems.twoPieceClosed, 90, 4, seals.sound, { pouchesADay: 1.5 })],
      },
    ],
  },
  {
    person: {
      name: "Fatou Dialloure",
      ageYears: 53,
      identifier: "TH-0290",
      phone: "555-0148",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 1100 },
        knownSince: 90,
        size: settledAt(31.5, 10),
        readings: byGuide(28, 24),
        clearanceMm: 2.5,
        systems: [worn(systems.drainableFlat, 90, 3.5, seals.sound)],
      },
    ],
    events: [{ what: "irrigation", daysAgo: 85, stoma: 0, note: "Every second morning." }],
  },
  {
    person: {
      name: "Hyun-woo Baekseong",
      ageYears: 60,
      identifier: "TH-0255",
      phone: "555-0149",
      caredForBy: "self",
    },
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 2100, precision: "year" },
        knownSince: 90,
        size: settledAt(29.5, 22),
        readings: byGuide(28, 17),
        clearanceMm: 1.8,
        systems: [worn(systems.drainableFlat, 90, 4, seals.sound)],
      },
    ],
  },
  {
    person: { name: "Constance Merribrook", ageYears: 88, identifier: "TH-0188", caredForBy: "nurse" },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: null,
        knownSince: 88,
        size: settledAt(33.4, 6),
        readings: byGuide(28, 4),
        clearanceMm: 2.5,
        systems: [worn(systems.drainableFlat, 88, 3, seals.sound)],
      },
    ],
    notes: [
      { daysAgo: 88, text: "Moved into the care home at Thornmere; nobody knows the year of the surgery." },
    ],
  },
];
