import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Session } from "../../src/record/session.ts";
import type { Today } from "../../src/record/today/index.ts";
import { type OpenBench, openBench } from "./bench.ts";

let bench: OpenBench;
let today: Today;
beforeAll(async () => {
  bench = await openBench({ demo: true });
  today = await bench.ask<Today>("/today");
});
afterAll(() => bench.close());

describe("today's list", () => {
  it("names everybody with a reason, most urgent first, each with the value that fired", async () => {
    const page = await bench.visit("/");
    await page.getByRole("heading", { name: "Today", exact: true }).waitFor();
    const names = await page.locator("a[data-line]").allTextContents();
    expect(names).toEqual(today.lines.map(({ person }) => person.name));
    const reasons = today.lines.flatMap((line) => line.reasons);
    expect(await page.locator(".reason").count()).toBe(reasons.length);
    expect(await page.locator(".reason .note").first().textContent()).toMatch(/^Protocol: \d/);
  });

  it("sets the figure that decides in bold", async () => {
    const page = await bench.visit("/");
    await page.locator(".reason").first().waitFor();
    for (const reason of await page.locator(".reason").all()) {
      const text = (await reason.locator("p").first().textContent()) ?? "";
      if (/\d/.test(text)) expect(await reason.locator("b").count()).toBeGreaterThan(0);
    }
  });

  it("is walked with J and K and opened with Enter", async () => {
    const page = await bench.visit("/");
    await page.locator("a[data-line]").first().waitFor();
    const focused = () => page.evaluate(() => document.activeElement?.textContent);
    await page.keyboard.press("j");
    expect(await focused()).toBe(today.lines[0]?.person.name);
    await page.keyboard.press("j");
    expect(await focused()).toBe(today.lines[1]?.person.name);
    await page.keyboard.press("k");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: today.lines[0]?.person.name }).waitFor();
  });

  it("shows its keys with ?, closes them with Escape, and gives the focus back", async () => {
    const page = await bench.visit("/");
    await page.locator("a[data-line]").first().waitFor();
    await page.keyboard.press("j");
    await page.keyboard.press("?");
    await page.getByRole("dialog", { name: "Keys" }).waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(today.lines[0]?.person.name);
  });

  it("writes a note about the chosen person with N", async () => {
    const page = await bench.visit("/");
    await page.locator("a[data-line]").first().waitFor();
    await page.keyboard.press("j");
    await page.keyboard.press("n");
    await page.getByRole("dialog", { name: "Write a note" }).waitFor();
  });

  it("says how many others there are", async () => {
    const page = await bench.visit("/");
    await page.getByText(`${today.others} others: nothing passes a protocol value.`).waitFor();
  });
});

describe("the demo", () => {
  const account = async () => (await bench.ask<Session>("/session")).account!;

  it("is marked, and signed in by itself; who signs out can go on without signing in", async () => {
    const page = await bench.visit("/", { as: "nobody" });
    await page.getByText("Demo, invented people").waitFor();
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
    await page.getByRole("button", { name: "Go on without signing in" }).click();
    await page.locator("a[data-line]").first().waitFor();
  });

  it("confirms with a press what needs a recent sign-in, for it has no password", async () => {
    const page = await bench.visit("/clinic", { as: "nobody" });
    await page.getByRole("button", { name: "Take out the whole record" }).waitFor();
    bench.passTime(11, await account());
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Take out the whole record" }).click();
    const dialog = page.getByRole("dialog", { name: "Confirm that it is you" });
    await dialog.getByRole("button", { name: "Go on: this is a demo" }).click();
    expect((await download).suggestedFilename()).toMatch(/^record-/);
  });
});
