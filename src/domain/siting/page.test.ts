import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseInput } from "../fault.ts";
import { sitingTopic } from "./topic.ts";

const page = readFileSync(new URL("../../../docs/siting.md", import.meta.url), "utf8");
const [document, answer] = [...page.matchAll(/```json\n([\s\S]*?)```/g)].map(([, json]) => JSON.parse(json!));

describe("docs/siting.md", () => {
  it("shows the document that the command line gives as its example", () => {
    expect(document).toEqual(sitingTopic.example);
  });

  it("shows what comes out of it, to the millimetre", () => {
    const given = sitingTopic.run(parseInput(sitingTopic.schema, document));
    expect(given).toMatchObject({ wantedQuadrant: answer.wantedQuadrant, conflict: answer.conflict });
    const rounded = given.candidates.map(({ rank, at, quadrant, limiting, slackMm }) => ({
      rank,
      at: at.map(Math.round),
      quadrant,
      limiting,
      slackMm: Math.round(slackMm),
    }));
    expect(rounded).toEqual(answer.candidates);
  });
});
