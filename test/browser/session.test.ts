import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { StoredEntry } from "../../src/record/entry/index.ts";
import { leadAccount, type Member, type OpenBench, openBench } from "./bench.ts";
import { newPerson } from "./people.ts";
import { typeSignIn } from "./signIn.ts";

let bench: OpenBench;
let nurse: Member;
const edda = newPerson("Edda Farrowby");
beforeAll(async () => {
  bench = await openBench();
  nurse = await bench.join("nurse", "Hal Verity");
  await bench.append(edda.drafts);
});
afterAll(() => bench.close());

const path = `/people/${edda.personId}`;
let page: Page;
afterEach(() => page.context().close());

/** A browser of its own in which the nurse has just signed in. */
async function signedIn(at: string): Promise<void> {
  page = await bench.visit(at, { as: "nobody" });
  await typeSignIn(page, nurse);
  await page.getByRole("heading", { level: 1, name: "Edda Farrowby" }).waitFor();
}
const notesBy = async (name: string) => {
  const { entries } = await bench.ask<{ entries: StoredEntry[] }>(path);
  return entries.filter(({ kind, by }) => kind === "noted" && by.name === name);
};
const again = () => page.getByRole("dialog", { name: "Sign in again" });

describe("a session that has ended", () => {
  it("asks to sign in again over the page, and then saves what was typed without another press", async () => {
    await signedIn(`${path}?write=noted`);
    await page.getByRole("textbox", { name: "Note" }).fill("the belt rubs at the left");
    const before = (await notesBy(nurse.displayName)).length;
    bench.passTime(31, nurse);
    await page.getByRole("button", { name: "Save the note" }).click();
    await again().waitFor();
    expect(await again().getByLabel("Name", { exact: true }).inputValue()).toBe(nurse.signInName);
    await again().getByRole("textbox", { name: "Password" }).fill(nurse.password);
    await page.keyboard.press("Enter");
    await page.getByText("Saved: write a note").waitFor();
    expect((await notesBy(nurse.displayName)).length).toBe(before + 1);
  });

  it("hides the page, keeps Escape from opening it, and its title from naming anybody", async () => {
    await signedIn(path);
    bench.passTime(31, nurse);
    await page.getByRole("link", { name: "People" }).click();
    await again().waitFor();
    for (let presses = 0; presses < 4; presses += 1) {
      await page.keyboard.press("Escape");
      expect(await again().isVisible()).toBe(true);
    }
    expect(await page.title()).toBe("Sign in again · Roundel");
    const backdrop = await again().evaluate(
      (dialog) => getComputedStyle(dialog, "::backdrop").backgroundColor,
    );
    const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(backdrop).toBe(paper);
  });

  it("gives another person a clean bench, and the first one her draft when she is back", async () => {
    await signedIn(`${path}?write=noted`);
    await page.getByRole("textbox", { name: "Note" }).fill("half a sentence");
    bench.passTime(31, nurse);
    await page.getByRole("button", { name: "Save the note" }).click();
    await again().waitFor();
    await typeSignIn(page, leadAccount);
    await page.getByRole("banner").getByRole("link", { name: leadAccount.displayName }).waitFor();
    expect(new URL(page.url()).pathname).toBe("/");
    await page.goto(`${bench.url}${path}?write=noted`);
    expect(await page.getByRole("textbox", { name: "Note" }).inputValue()).toBe("");

    await page.getByRole("button", { name: "Not now" }).click();
    await page.getByRole("button", { name: "Sign out" }).click();
    await typeSignIn(page, nurse);
    await page.getByRole("heading", { level: 1, name: "Edda Farrowby" }).waitFor();
    await page.getByRole("button", { name: "Write a note" }).click();
    expect(await page.getByRole("textbox", { name: "Note" }).inputValue()).toBe("half a sentence");
    expect(await notesBy(leadAccount.displayName)).toHaveLength(0);
  });

  it("is found when another tab signs in as somebody else: this tab follows", async () => {
    await signedIn(path);
    const other = await page.context().newPage();
    await other.goto(`${bench.url}/people`);
    await other.getByRole("button", { name: "Sign out" }).click();
    await typeSignIn(other, leadAccount);
    await page.getByRole("banner").getByRole("link", { name: leadAccount.displayName }).waitFor();
  });
});

describe("a session that is about to end", () => {
  const warning = () => page.getByRole("alertdialog", { name: "Are you still there?" });

  async function leftAlone(minutes: number, clock: string): Promise<void> {
    bench.passTime(minutes, nurse);
    await page.clock.fastForward(clock);
  }

  it("warns two minutes before, with the focus on the button that stays", async () => {
    page = await bench.visit("/", { as: "nobody" });
    await page.clock.install();
    await page.goto(bench.url + path);
    await typeSignIn(page, nurse);
    await page.getByRole("heading", { level: 1, name: "Edda Farrowby" }).waitFor();
    await leftAlone(28.5, "28:30");
    await warning().waitFor();
    expect(await warning().textContent()).toMatch(/Hal Verity is signed out in 1 minute \d+ seconds?\./);
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("Stay signed in");
    await page.keyboard.press("Enter");
    await warning().waitFor({ state: "detached" });
    await leftAlone(5, "05:00");
    await page.getByRole("link", { name: "People" }).click();
    await page.getByRole("link", { name: "Edda Farrowby" }).waitFor();
  });

  it("does not warn while somebody types, though nothing is asked of the bench", async () => {
    page = await bench.visit("/", { as: "nobody" });
    await page.clock.install();
    await page.goto(`${bench.url + path}?write=noted`);
    await typeSignIn(page, nurse);
    await page.getByRole("textbox", { name: "Note" }).fill("a");
    for (let times = 0; times < 4; times += 1) {
      await leftAlone(9, "09:00");
      const renewed = page.waitForResponse("**/api/session");
      await page.getByRole("textbox", { name: "Note" }).press("b");
      await renewed;
    }
    expect(await warning().count()).toBe(0);
    expect(await page.getByRole("textbox", { name: "Note" }).inputValue()).toBe("abbbb");
  });

  it("ends on the hour where nobody answers, and the page waits for the next sign-in", async () => {
    page = await bench.visit("/", { as: "nobody" });
    await page.clock.install();
    await page.goto(bench.url + path);
    await typeSignIn(page, nurse);
    await page.getByRole("heading", { level: 1, name: "Edda Farrowby" }).waitFor();
    await leftAlone(31, "31:00");
    await again().waitFor();
  });
});
