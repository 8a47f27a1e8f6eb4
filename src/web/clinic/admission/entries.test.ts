import { expect, it } from "vitest";
import { checkEntry } from "../../../record/entry/index.ts";
import { newId } from "../../shared/api/index.ts";
import { admissionEntries, blankAdmission } from "./entries.ts";

const zone = "Europe/London";

function filled() {
  const admission = blankAdmission(zone);
  admission.person = { ...admission.person, name: "Josefa Moor", identifier: "R 204" };
  admission.stoma = { ...admission.stoma, type: "colostomy", construction: "end", day: "2026-10-04" };
  admission.system = {
    ...admission.system,
    name: "closed one-piece, flat",
    pieces: "one",
    closure: "closed",
    barrier: "flat",
    opening: "cutToFit",
  };
  return admission;
}

it("a new person goes to the record with stoma and system in one go", () => {
  const { entries } = admissionEntries(filled(), zone);
  expect(entries?.map(({ kind }) => kind)).toEqual(["person", "stoma", "fitted"]);
  for (const entry of entries ?? []) {
    const stamped = {
      ...entry,
      clinicId: newId(),
      recordedAt: new Date().toISOString(),
      by: { id: newId(), name: "Ines Varga" },
    };
    expect(checkEntry(JSON.parse(JSON.stringify(stamped))).faults).toBeUndefined();
  }
});

it("a second try carries the same ids, so that nobody is added twice", () => {
  const admission = filled();
  const ids = () => admissionEntries(admission, zone).entries?.map(({ id }) => id);
  expect(ids()).toEqual(ids());
});

it("no system in use means two entries", () => {
  const admission = { ...filled(), hasSystem: false };
  expect(admissionEntries(admission, zone).entries?.length).toBe(2);
});

it("what is missing is said for each part", () => {
  const { wrong } = admissionEntries(blankAdmission(zone), zone);
  expect(Object.keys(wrong?.person ?? {})).toContain("name");
  expect(Object.keys(wrong?.stoma ?? {})).toContain("type");
  expect(Object.keys(wrong?.system ?? {})).toContain("name");
});
