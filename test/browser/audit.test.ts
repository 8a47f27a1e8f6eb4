import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Member, type OpenBench, openBench } from "./bench.ts";
import { newPerson } from "./people.ts";

let bench: OpenBench;
let nurse: Member;
const edda = newPerson("Edda Farrowby");
const bram = newPerson("Bram Oyelaran");
beforeAll(async () => {
  bench = await openBench();
  nurse = await bench.join("nurse", "Hal Verity");
  await bench.append([...edda.drafts, ...bram.drafts]);
  await nurse.asker.ask(`/people/${edda.personId}`);
  for (let times = 0; times < 3; times += 1) await bench.ask(`/people/${bram.personId}`);
});
afterAll(() => bench.close());

const lines = async (page: Page) =>
  (await page.locator(".audit-line").allTextContents()).map((text) => text.replace(/^\d\d:\d\d/, ""));

describe("who saw and changed what", () => {
  it("is told in sentences, the newest first, with names put to the ids", async () => {
    const page = await bench.visit("/clinic/audit");
    await page.getByText("Hal Verity looked at Edda Farrowby.").waitFor();
    const said = await lines(page);
    expect(said).toContain("Ines Varga wrote about Edda Farrowby and Bram Oyelaran.");
    expect(said).toContain("Ines Varga made a one-time link for a new colleague.");
    expect(said.at(-1)).toMatch(/set up the clinic\.$/);
    expect(said.join()).not.toMatch(/no\. [0-9a-f]{8}/);
  });

  it("can be held to one colleague", async () => {
    const page = await bench.visit("/clinic/audit");
    await page.getByLabel("By", { exact: true }).selectOption(nurse.accountId);
    await page.getByText("Hal Verity looked at Edda Farrowby.").waitFor();
    await expect
      .poll(async () => (await lines(page)).every((line) => line.startsWith("Hal Verity")))
      .toBe(true);
    expect(new URL(page.url()).searchParams.get("account")).toBe(nurse.accountId);
  });

  it("can be held to one person, found by name or from their page", async () => {
    const page = await bench.visit("/clinic/audit");
    await page.getByRole("searchbox").fill("edda");
    await page.getByRole("list", { name: "People found" }).getByRole("button").click();
    await page.getByText("About Edda Farrowby", { exact: true }).waitFor();
    await expect
      .poll(async () => {
        const said = await lines(page);
        return said.length > 0 && said.every((line) => line.includes("Edda Farrowby"));
      })
      .toBe(true);
    await page.goto(`${bench.url}/people/${bram.personId}`);
    await page.getByRole("link", { name: "Who saw and changed what" }).click();
    await page.getByText("About Bram Oyelaran", { exact: true }).waitFor();
    await page.getByRole("button", { name: "Show everybody" }).click();
    await page.getByText("Ines Varga set up the clinic.").waitFor();
  });

  it("tells a thing done several times running once, with how often", async () => {
    const page = await bench.visit(`/clinic/audit?person=${bram.personId}`);
    await page.getByText(/^Ines Varga looked at Bram Oyelaran\. \d+ times since \d\d:\d\d\.$/).waitFor();
  });

  it("says that a try was refused", async () => {
    await nurse.asker.ask("/accounts").catch(() => null);
    const page = await bench.visit(`/clinic/audit?account=${nurse.accountId}`);
    await page.getByText("Hal Verity tried to look at the accounts, and was refused.").waitFor();
  });

  it("shows older lines on request", async () => {
    const looks = [bench.ask, nurse.asker.ask.bind(nurse.asker)];
    for (let times = 0; times < 130; times += 1) await looks[times % 2]!(`/people/${bram.personId}`);
    const page = await bench.visit(`/clinic/audit?person=${bram.personId}`);
    await page.locator(".audit-line").first().waitFor();
    expect(await page.locator(".audit-line").count()).toBeLessThanOrEqual(100);
    await page.getByRole("button", { name: "Show older lines" }).click();
    await expect.poll(() => page.locator(".audit-line").count()).toBeGreaterThan(130);
  });

  it("can be taken out as a file with the hashes that chain the lines", async () => {
    const page = await bench.visit("/clinic/audit");
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Take out all lines" }).click();
    const text = readFileSync((await (await download).path())!, "utf8");
    expect(text).toContain('"prev":');
    expect(text).not.toMatch(/Edda|Bram|Verity/);
  });
});
