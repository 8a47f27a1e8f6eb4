import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Member, type OpenBench, openBench } from "./bench.ts";
import { newPerson } from "./people.ts";

let bench: OpenBench;
let nurse: Member;
beforeAll(async () => {
  bench = await openBench();
  nurse = await bench.join("nurse", "Hal Verity");
  await bench.append(newPerson("Edda Farrowby").drafts);
});
afterAll(() => bench.close());

describe("the clinic's details", () => {
  it("can be changed later by the lead", async () => {
    const page = await bench.visit("/clinic");
    await page.getByLabel("Number out of hours").fill("555-0199");
    await page.getByRole("button", { name: "Save the details" }).click();
    await page.getByText("Saved.").waitFor();
    await page.reload();
    await expect.poll(() => page.getByLabel("Number out of hours").inputValue()).toBe("555-0199");
  });

  it("are only shown to a nurse, with her own printer to measure", async () => {
    const page = await bench.visit("/clinic", { as: nurse });
    await page.getByText("The lead of the service changes these.").waitFor();
    expect(await page.getByRole("textbox", { name: "Name of the clinic" }).count()).toBe(0);
    expect(await page.getByRole("button", { name: "Take out the whole record" }).count()).toBe(0);
    expect(await page.getByRole("link", { name: "Colleagues" }).count()).toBe(0);
    expect(await page.getByLabel("100 mm bar across").isVisible()).toBe(true);
  });
});

describe("the printer", () => {
  it("keeps its measured bars in this browser", async () => {
    const page = await bench.visit("/clinic");
    await page.getByLabel("100 mm bar across").fill("98,5");
    await page.getByLabel("100 mm bar upright").fill("98.6");
    await page.getByRole("button", { name: "Keep for this browser" }).click();
    await page.getByText("This printer is off by 1.5 %").waitFor();
    await page.reload();
    await page.getByText("This printer is off by 1.5 %").waitFor();
    const card = await page.getByRole("link", { name: "frame card drawn for it" }).getAttribute("href");
    expect(card).toBe("/api/frame-card.pdf?paper=A4&x=0.985&y=0.986");
    const plain = await page.getByRole("link", { name: "frame card", exact: true }).getAttribute("href");
    expect(plain).toBe("/api/frame-card.pdf?paper=A4");
  });
});

describe("taking the record out", () => {
  it("saves a file with everything in it, under the name the bench gives it", async () => {
    const page = await bench.visit("/clinic");
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Take out the whole record" }).click();
    const file = await download;
    expect(file.suggestedFilename()).toMatch(/^record-\d{4}-\d\d-\d\d\.jsonl$/);
    expect(readFileSync((await file.path())!, "utf8")).toContain("Edda Farrowby");
  });
});
