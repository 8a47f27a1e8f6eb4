import type { Pen } from "./pen.ts";
import type { DaysAgo } from "./scenario.ts";

/** Ids of the invented clinic and its nurse: the same in every demo. */
export const demoClinicId = "5d1f6c0e-8a43-4c57-9f0b-2b7c1a9e4d10";
export const demoNurse = { id: "0b8e2f74-6c1d-4e3a-a5d9-7f4c3b2a1e60", name: "Ines Varga" };

/** The record begins when the clinic was set up. */
export const setUpDaysAgo: DaysAgo = 200;

export function tellClinic(pen: Pen): void {
  pen.write(
    "clinic",
    { daysAgo: setUpDaysAgo, hour: 8 },
    {
      name: "Thornmere Stoma Clinic (demo)",
      timeZone: pen.zone,
      nurse: demoNurse,
      nursePhone: "555-0100",
      outOfHoursPhone: "555-0101",
      paper: "A4",
    },
  );
  pen.write(
    "protocolSet",
    { daysAgo: setUpDaysAgo - 30, hour: 8.5 },
    { key: "remindAheadDays", value: 2 },
    { reason: "Clinic days follow each other: two days are enough to plan a measuring." },
  );
}
