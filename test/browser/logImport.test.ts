import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { StoredEntry } from "../../src/record/entry/index.ts";
import { type OpenBench, openBench } from "./bench.ts";
import { dateAgo, newPerson } from "./people.ts";

let bench: OpenBench;
const bram = newPerson("Bram Oyelaran", { day: 60 });
beforeAll(async () => {
  bench = await openBench();
  await bench.append(bram.drafts);
});
afterAll(() => bench.close());

const path = `/people/${bram.personId}/import`;
const csv = (lines: string[]) => ({
  name: "log.csv",
  mimeType: "text/csv",
  buffer: Buffer.from(lines.join("\n")),
});
const changesOnRecord = async () =>
  (await bench.ask<{ entries: StoredEntry[] }>(`/people/${bram.personId}`)).entries.filter(
    ({ kind }) => kind === "changed",
  );

describe("importing a log of changes", () => {
  it("shows bad lines by their number and records the good ones only when told to", async () => {
    const page = await bench.visit(path);
    await page.setInputFiles(
      "input[type=file]",
      csv([
        "date,time,what,why",
        `${dateAgo(20)},07:40,barrier,planned`,
        `${dateAgo(17)},22:10,barrier,leak past the edge`,
        `${dateAgo(14)},25:10,barrier,planned`,
        `${dateAgo(10)},08:00,barier,planned`,
      ]),
    );
    await page.getByText("4 lines read, 2 changes to record, 2 lines that cannot be read.").waitFor();
    const bad = page.getByRole("region", { name: "Lines that cannot be read" });
    expect(await bad.getByRole("row").nth(1).textContent()).toContain("25:10");
    expect(await bad.getByRole("row").nth(2).textContent()).toContain("barier");
    expect(await changesOnRecord()).toHaveLength(0);

    await page.getByRole("button", { name: "Record 2 changes, leave out 2 lines" }).click();
    await page.getByText(/^2 changes recorded, 2 lines left out/).waitFor();
    expect(await changesOnRecord()).toHaveLength(2);
  });

  it("asks how dates are written that can be read in two ways", async () => {
    const page = await bench.visit(path);
    await page.setInputFiles("input[type=file]", csv(["date,what,why", "01/02/2026,barrier,planned"]));
    await page.getByText("can be read in two ways").waitFor();
    expect(await page.getByRole("button", { name: /^Record/ }).count()).toBe(0);
    await page.getByRole("radio", { name: "Day, month, year" }).check();
    await page.getByText(/1 line read/).waitFor();
  });

  it("leaves out what is on record already", async () => {
    const page = await bench.visit(path);
    await page.setInputFiles(
      "input[type=file]",
      csv(["date,time,what,why", `${dateAgo(20)},07:40,barrier,planned`]),
    );
    await page.getByText(/1 already in the record/).waitFor();
  });

  it("gives the log back as a file with the same columns", async () => {
    const page = await bench.visit(`/people/${bram.personId}`);
    const link = page.getByRole("link", { name: /Take out the log of changes/ });
    const href = await link.getAttribute("href");
    expect(href).toBe(`/api/people/${bram.personId}/changes.csv?stomaId=${bram.stomaId}`);
    const response = await page.request.get(bench.url + href);
    expect(await response.text()).toContain("leak past the edge");
  });
});
