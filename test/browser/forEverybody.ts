import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { Look } from "./bench.ts";

/** Holds a page to what axe can find, on a desk and on a phone, by day and by night, and with large letters. */
export function isForEverybody(open: (look: Look) => Promise<Page>): void {
  it("has no fault that axe finds on a desk", async () => {
    const page = await open({ width: 1280 });
    expect(await faultsOf(page)).toEqual([]);
    await page.close();
  });

  it("can be read in the dark", async () => {
    // The same page with other colours and nothing else.
    const page = await open({ width: 1280, colorScheme: "dark" });
    expect(await faultsOf(page, ["color-contrast"])).toEqual([]);
    await page.close();
  });

  it("has no fault on a phone and is never wider than it, also with letters twice as large", async () => {
    const page = await open({ width: 390 });
    expect(await faultsOf(page)).toEqual([]);
    expect(await overhang(page)).toBe(0);
    await enlargeLetters(page);
    // Charts are drawn anew for the letters they have now.
    await expect.poll(() => overhang(page)).toBe(0);
    await page.close();
  });
}

async function faultsOf(page: Page, rules?: string[]): Promise<string[]> {
  const axe = new AxeBuilder({ page });
  const { violations } = await (rules ? axe.withRules(rules) : axe.withTags(standards)).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`);
}

const standards = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

async function enlargeLetters(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send("Page.enable");
  await session.send("Page.setFontSizes", { fontSizes: { standard: 32, fixed: 26 } });
  await expect
    .poll(() => page.evaluate(() => getComputedStyle(document.documentElement).fontSize))
    .toBe("32px");
}

function overhang(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}
