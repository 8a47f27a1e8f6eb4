import { expect, it } from "vitest";
import { checkEntry, kindNames, kinds } from "../../../record/entry/index.ts";
import { draftEntry, newId, writtenVersions } from "./entries.ts";

it("the pages write each kind in the version that the record now has", () => {
  const current = Object.fromEntries(kindNames.map((kind) => [kind, kinds[kind].version]));
  expect(writtenVersions).toEqual(current);
});

it("a draft is a whole entry once the server adds clinic, author and time of writing", () => {
  const draft = draftEntry(
    "noted",
    { text: "Rang her: sleeping through." },
    { personId: newId(), stomaId: null, at: { date: "2026-11-25", precision: "day" } },
  );
  const stamped = {
    ...draft,
    clinicId: newId(),
    recordedAt: "2026-11-25T09:00:00Z",
    by: { id: newId(), name: "Ines Varga" },
  };
  expect(checkEntry(stamped).faults).toBeUndefined();
});
