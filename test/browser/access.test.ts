import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Today } from "../../src/record/today/index.ts";
import { type OpenBench, openBench } from "./bench.ts";
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

const looks = [1280, 390].flatMap((width) =>
  (["light", "dark"] as const).map((colorScheme) => ({ width, colorScheme })),
);

/** In the dark the same page has other colours, and nothing else. */
function rulesFor(page: Page, colorScheme: "light" | "dark"): AxeBuilder {
  const axe = new AxeBuilder({ page });
  return colorScheme === "dark"
    ? axe.withRules(["color-contrast"])
    : axe.withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]);
}

async function opened(one: (typeof pages)[number], look: Parameters<OpenBench["visit"]>[1]): Promise<Page> {
  const page = await bench.visit(one.path(), look);
  await page.locator(one.ready).first().waitFor();
  await one.act?.(page);
  return page;
}

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
  it.each(looks)("has no fault that axe finds, $width px, $colorScheme", async (look) => {
    const page = await opened(one, look);
    const { violations } = await rulesFor(page, look.colorScheme).analyze();
    const found = violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`);
    expect(found).toEqual([]);
    await page.close();
  });

  it("is never wider than a phone, also with letters twice as large", async () => {
    const page = await opened(one, { width: 390 });
    const overhang = () =>
      page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(await overhang()).toBe(0);
    const session = await page.context().newCDPSession(page);
    await session.send("Page.enable");
    await session.send("Page.setFontSizes", { fontSizes: { standard: 32, fixed: 26 } });
    await page.reload();
    await page.locator(one.ready).first().waitFor();
    await one.act?.(page);
    await expect
      .poll(() => page.evaluate(() => getComputedStyle(document.documentElement).fontSize))
      .toBe("32px");
    expect(await overhang()).toBe(0);
    await page.close();
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

  it("is under 300 kB of script for the first page", async () => {
    const page = await bench.visit("/");
    await page.locator(".today-line").first().waitFor();
    const scripts = await page.evaluate(() =>
      performance.getEntriesByType("resource").flatMap(({ name }) => (name.endsWith(".js") ? [name] : [])),
    );
    const total = scripts.reduce((sum, name) => sum + gzipKb(new URL(name).pathname), 0);
    expect(scripts.length).toBeGreaterThan(1);
    expect(total).toBeLessThan(300);
  });

  it("holds none of the record's schemas", () => {
    for (const file of readdirSync(`${web}/assets`).filter((name) => name.endsWith(".js"))) {
      expect(readFileSync(`${web}/assets/${file}`, "utf8")).not.toContain("unrecognized_keys");
    }
  });
});
