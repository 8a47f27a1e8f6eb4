import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { describeRecord } from "../../../test/record/describeRecord.ts";
import { kindNames } from "../entry/index.ts";
import { programVersion } from "../programVersion.ts";

it("docs/record-format.md says what the schemas say", async () => {
  await expect(describeRecord()).toMatchFileSnapshot("../../../docs/record-format.md");
});

it("every kind of entry has its part on that page", () => {
  const page = describeRecord();
  for (const kind of kindNames) expect(page).toContain(`### ${kind}\n`);
  expect(page).not.toMatch(/undefined|\[object/);
});

it("the version that is written into records is the package's", () => {
  const { version } = JSON.parse(readFileSync(new URL("../../../package.json", import.meta.url), "utf8"));
  expect(programVersion).toBe(version);
});
