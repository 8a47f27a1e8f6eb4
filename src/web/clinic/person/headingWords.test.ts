import { describe, expect, it } from "vitest";
import { day, entry, samplePerson, storyOf } from "../../../../test/record/samples.ts";
import type { Entry } from "../../../record/entry/index.ts";
import { headingWords, standingNote } from "./headingWords.ts";

const today = "2026-11-25";

function heading(details = {}, stoma = {}, more: (about: { personId: string }) => Entry[] = () => []) {
  const person = samplePerson(details, stoma);
  const story = storyOf([...person.entries, ...more({ personId: person.personId })]);
  return {
    words: headingWords(story.details, story.stomas[0], today),
    note: standingNote(story, story.stomas[0]),
  };
}

describe("the heading of a person's page", () => {
  it("gives the day of recovery and the calendar date together", () => {
    expect(heading({ helperName: "Per", caredForBy: "helper" }).words).toBe(
      "Day 36, Wednesday 25 November · end ileostomy made 20 October 2026 · born 1951 · record R-1042 · helper at home: Per",
    );
  });

  it("gives no day where surgery is known to the month only", () => {
    const { words } = heading({}, { surgeryOn: { date: "2026-10-01", precision: "month" } });
    expect(words).toContain("end ileostomy made in October 2026");
    expect(words).not.toMatch(/^Day/);
  });

  it("says why the lists do not ask after somebody", () => {
    const at = day("2026-11-20");
    expect(heading().note).toBe("");
    expect(heading({}, {}, (about) => [entry("event", { what: "admitted" }, { ...about, at })]).note).toMatch(
      /^In hospital/,
    );
    expect(heading({}, {}, (about) => [entry("event", { what: "died" }, { ...about, at })]).note).toMatch(
      /^Died/,
    );
  });
});
