import type { Scenario } from "../scenario.ts";
import { seals, systems } from "../systems.ts";
import { byGuide, byTracing, shrinking, wardGuide, worn } from "./brief.ts";

/** The first ten days: swollen, measured every few days, learning to empty and to change. */
export const firstDays: Scenario[] = [
  {
    person: { name: "Marit Solvangen", ageYears: 61, identifier: "TH-0481", caredForBy: "nurse" },
    stomas: [
      {
        type: "ileostomy",
        construction: "loop",
        side: "right",
        surgery: { daysAgo: 2 },
        knownSince: 1,
        size: shrinking(44, 31, 17, 24, { widthShare: 0.8, tiltDeg: 10 }),
        readings: byGuide(3, 1),
        clearanceMm: 2,
        systems: [worn(systems.twoPieceDrainable, 1, 3.5, seals.sound)],
      },
    ],
    notes: [{ daysAgo: 1, text: "Looked at the stoma for the first time. Emptied once with help." }],
  },
  {
    person: {
      name: "Tobias Ekwenari",
      ageYears: 47,
      identifier: "TH-0480",
      phone: "555-0111",
      caredForBy: "nurse",
    },
    stomas: [
      {
        type: "colostomy",
        construction: "end",
        side: "left",
        surgery: { daysAgo: 5 },
        knownSince: 4,
        size: shrinking(41, 32, 15, 14),
        readings: byGuide(3, 1),
        clearanceMm: 2.5,
        systems: [worn(systems.drainableFlat, 4, 2, seals.sound)],
      },
    ],
    notes: [{ daysAgo: 1, text: "Emptied alone twice. First change watched, next one with help." }],
  },
  {
    person: {
      name: "Halina Drozdeva",
      ageYears: 72,
      identifier: "TH-0478",
      phone: "555-0112",
      language: "Polish",
      interpreter: true,
      sight: "Reads large print only.",
      caredForBy: "helper",
      helperName: "Bogna Drozdeva",
    },
    homeSince: 2,
    stomas: [
      {
        type: "urostomy",
        construction: "conduit",
        side: "right",
        surgery: { daysAgo: 9 },
        knownSince: 8,
        size: shrinking(33, 25, 18, 22),
        readings: byGuide(4, 2),
        clearanceMm: 1.6,
        systems: [worn(systems.tapFlat, 8, 3.5, seals.sound)],
      },
    ],
    notes: [{ daysAgo: 2, text: "Daughter changes the pouch; night drainage shown." }],
  },
  {
    person: {
      name: "Theo Larkmere",
      ageYears: 0.08,
      identifier: "TH-0475",
      phone: "555-0113",
      caredForBy: "helper",
      helperName: "Saoirse Larkmere",
    },
    homeSince: 3,
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 20 },
        knownSince: 18,
        size: shrinking(10.6, 9.2, 9, 8, { widthShare: 0.6, tiltDeg: -15 }),
        readings: byGuide(4, 2),
        clearanceMm: 1,
        systems: [worn(systems.infantDrainable, 18, 1.5, { shape: 2.4, scaleDays: 5 })],
      },
    ],
    notes: [
      {
        daysAgo: 3,
        text: "Premature, now home. Mother changes with confidence. Own limits from the children's team.",
      },
    ],
  },
  {
    person: {
      name: "Idris Benmourad",
      ageYears: 38,
      identifier: "TH-0476",
      phone: "555-0114",
      caredForBy: "self",
    },
    homeSince: 1,
    stomas: [
      {
        type: "ileostomy",
        construction: "end",
        side: "right",
        surgery: { daysAgo: 10 },
        knownSince: 9,
        size: shrinking(39, 29, 16, 25),
        readings: byGuide(4, 1, wardGuide),
        clearanceMm: 1.6,
        systems: [worn(systems.drainableFlat, 9, 3.5, seals.sound)],
      },
    ],
  },
  {
    person: {
      name: "Perpetua Quillby",
      ageYears: 79,
      identifier: "TH-0477",
      phone: "555-0115",
      dexterity: "Arthritis in both hands: scissors are hard.",
      caredForBy: "helper",
      helperName: "Gregor Quillby",
    },
    homeSince: 3,
    stomas: [
      {
        type: "colostomy",
        construction: "loop",
        side: "left",
        surgery: { daysAgo: 12 },
        knownSince: 11,
        size: shrinking(68, 55, 18, 12, { widthShare: 0.72, tiltDeg: 35, lobes: 0.05 }),
        readings: byTracing(5, 1),
        clearanceMm: 2.5,
        systems: [worn(systems.largeDrainable, 11, 3, seals.sound)],
      },
    ],
    notes: [{ daysAgo: 1, text: "Rod removed. Husband cuts from the sheet." }],
  },
];
