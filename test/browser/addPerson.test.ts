import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { StoredEntry } from "../../src/record/entry/index.ts";
import { type OpenBench, openBench } from "./bench.ts";
import { dateAgo } from "./people.ts";

let bench: OpenBench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

describe("adding a person", () => {
  it("asks for a second identifier, because sheets carry two", async () => {
    const page = await bench.visit("/people/new");
    await page.getByLabel("Name", { exact: true }).first().fill("Josefa Moor");
    await page.getByRole("button", { name: "Add the person" }).click();
    await page.getByText("Write the birth date or a record number").waitFor();
    await expect
      .poll(() => page.getByLabel("Birth date").evaluate((element) => element === document.activeElement))
      .toBe(true);
  });

  it("saves person, stoma and system together and opens the page", async () => {
    const page = await bench.visit("/people/new");
    const person = page.locator("section", {
      has: page.getByRole("heading", { name: "Person", exact: true }),
    });
    await person.getByLabel("Name", { exact: true }).fill("Josefa Moor");
    await person.getByLabel("Record number").fill("R 204");
    await page.getByLabel("Type").selectOption("colostomy");
    await page.getByLabel("Construction").selectOption("end");
    await page.getByLabel("Date of surgery", { exact: true }).fill(dateAgo(52));

    await page.reload();
    expect(await person.getByLabel("Name", { exact: true }).inputValue()).toBe("Josefa Moor");

    const system = page.locator("section", { has: page.getByRole("heading", { name: "Pouching system" }) });
    await system.getByLabel("Name", { exact: true }).fill("closed one-piece, flat, cut-to-fit 10-60 mm");
    for (const choice of ["One-piece", "Closed", "Flat", "Cut-to-fit"]) await page.getByLabel(choice).check();
    await system.getByLabel("Widest opening").fill("60");
    await page.getByLabel("Planned change every").fill("0,5");
    await page.getByRole("button", { name: "Add the person" }).click();

    await page.getByRole("heading", { level: 1, name: "Josefa Moor" }).waitFor();
    expect(await page.getByText(/^Day 52, /).isVisible()).toBe(true);
    const personId = new URL(page.url()).pathname.split("/").at(-1);
    const { entries } = await bench.ask<{ entries: StoredEntry[] }>(`/people/${personId}`);
    expect(entries.map(({ kind }) => kind)).toEqual(["person", "stoma", "fitted"]);
    expect(entries[2]?.body).toMatchObject({
      system: { closure: "closed", maxOpeningMm: 60 },
      plannedIntervalDays: 0.5,
    });
  });

  it("shows what the bench refuses beside the field it is about", async () => {
    const page = await bench.visit("/people/new");
    await page.getByLabel("Name", { exact: true }).first().fill("Too Early");
    await page.getByLabel("Record number").fill("R 205");
    await page.getByLabel("Type").selectOption("ileostomy");
    await page.getByLabel("Construction").selectOption("loop");
    await page.getByLabel("Date of surgery", { exact: true }).fill("2199-01-01");
    await page.getByLabel("A pouching system is in use").uncheck();
    await page.getByRole("button", { name: "Add the person" }).click();
    await page.getByRole("alert").getByText("Date of surgery: lies in the future").waitFor();
    expect(await page.getByLabel("Record number").inputValue()).toBe("R 205");
  });

  it("takes a surgery date that is known to the month only", async () => {
    const page = await bench.visit("/people/new");
    await page.getByLabel("Name", { exact: true }).first().fill("Nell Ashgrove");
    await page.getByLabel("Record number").fill("R 206");
    await page.getByLabel("Type").selectOption("urostomy");
    await page.getByLabel("Construction").selectOption("conduit");
    await page.getByRole("radio", { name: "Month" }).check();
    await page.getByLabel("Month of surgery").selectOption("05");
    await page.getByLabel("Year of surgery").fill("2024");
    await page.getByLabel("A pouching system is in use").uncheck();
    await page.getByRole("button", { name: "Add the person" }).click();
    await page.getByText("urostomy, conduit made in May 2024").waitFor();
  });
});
