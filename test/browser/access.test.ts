import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Today } from "../../src/record/today/index.ts";
import { type OpenBench, openBench } from "./bench.ts";
import { isForEverybody } from "./forEverybody.ts";
import { dateAgo } from "./people.ts";

let bench: OpenBench;
let personId: string;
beforeAll(async () => {
  bench = await openBench({ demo: true });
  personId = (await bench.ask<Today>("/today")).lines[0]!.person.personId;
});
afterAll(() => bench.close());

const pages: { name: string; path: () => string; ready: string; act?: (page: Page) => Promise<void> }[] = [
  { name: "Today", path: () => "/", ready: ".today-line" },
  { name: "People", path: () => "/people", ready: ".people-line" },
  { name: "Add a person", path: () => "/people/new", ready: "form" },
  { name: "a person", path: () => `/people/${personId}`, ready: ".leakfree svg" },
  { name: "a change being written", path: () => `/people/${personId}?write=changed`, ready: "dialog form" },
  { name: "Import", path: () => `/people/${personId}/import`, ready: ".import-columns" },
  {
    name: "a log that was read",
    path: () => `/people/${personId}/import`,
    ready: ".import-columns",
    act: readLog,
  },
  { name: "Protocol", path: () => "/protocol", ready: ".protocol-value" },
  { name: "Clinic", path: () => "/clinic", ready: "form" },
];

/** One line that is good and one that is not. */
async function readLog(page: Page): Promise<void> {
  const lines = [
    "date,time,what,why",
    `${dateAgo(2)},07:40,barrier,planned`,
    `${dateAgo(1)},25:10,barrier,planned`,
  ];
  const buffer = Buffer.from(lines.join("\n"));
  await page.setInputFiles("input[type=file]", { name: "log.csv", mimeType: "text/csv", buffer });
  await page.locator(".import-report").waitFor();
}

describe.each(pages)("$name", (one) => {
  isForEverybody(async (look) => {
    const page = await bench.visit(one.path(), look);
    await page.locator(one.ready).first().waitFor();
    await one.act?.(page);
    return page;
  });
});

describe("the pages by keyboard", () => {
  it("begin with a way past the head", async () => {
    const page = await bench.visit("/");
    await page.locator(".today-line").first().waitFor();
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Skip to the page");
  });

  it("show where the focus is with a ring of 3 px", async () => {
    const page = await bench.visit("/people/new");
    await page.getByRole("textbox", { name: "Name" }).first().focus();
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement!).outlineWidth);
    expect(outline).toBe("3px");
  });
});

describe("what a browser has to load", () => {
  const web = fileURLToPath(new URL("../../dist/web", import.meta.url));
  const gzipKb = (file: string) => gzipSync(readFileSync(`${web}${file}`)).length / 1000;

  it("is at most 145 kB of script and style for the first page", async () => {
    const page = await bench.visit("/");
    await page.locator(".today-line").first().waitFor();
    const files = await page.evaluate(() =>
      performance
        .getEntriesByType("resource")
        .flatMap(({ name }) => (/\.(js|css)$/.test(name) ? [new URL(name).pathname] : [])),
    );
    const total = files.reduce((sum, file) => sum + gzipKb(file), 0);
    expect(files.length).toBeGreaterThan(1);
    expect(total).toBeLessThanOrEqual(145);
  });

  it("holds none of the record's schemas", () => {
    for (const file of readdirSync(`${web}/assets`).filter((name) => name.endsWith(".js"))) {
      expect(readFileSync(`${web}/assets/${file}`, "utf8")).not.toContain("unrecognized_keys");
    }
  });
});
