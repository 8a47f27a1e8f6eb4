import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { leadAccount, type Member, type OpenBench, openBench } from "./bench.ts";
import { typeSignIn } from "./signIn.ts";

let bench: OpenBench;
let nurse: Member;
beforeAll(async () => {
  bench = await openBench();
  nurse = await bench.join("nurse", "Hal Verity");
});
afterAll(() => bench.close());

const lineOf = (page: Page, name: string) => page.locator(".colleague", { hasText: name });
const shownLink = (page: Page) => page.getByLabel("The link, shown once").inputValue();

async function actOn(page: Page, name: string, act: string): Promise<void> {
  await lineOf(page, name).getByRole("button", { name: "More" }).click();
  await page.getByRole("button", { name: act }).click();
}

describe("a colleague", () => {
  it("is added by a link that is shown once, and chooses name and password themselves", async () => {
    const page = await bench.visit("/clinic/colleagues");
    await page.getByRole("button", { name: "Add a colleague" }).click();
    await page.getByRole("button", { name: "Make a link" }).click();
    await page.getByText("Choose what they may do.").waitFor();
    await page.getByLabel("Name shown").fill("Tamsin Holloway");
    await page.getByRole("radio", { name: /^Nurse/ }).check();
    await page.getByRole("button", { name: "Make a link" }).click();
    await page.getByLabel("The link, shown once").waitFor();
    const link = await shownLink(page);
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("TEXTAREA");
    await page.getByRole("button", { name: "Done" }).click();
    await page.getByText("To join as nurse. Good for 7 days.").waitFor();

    const theirs = await bench.visit("/", { as: "nobody" });
    await theirs.goto(link);
    await theirs.getByRole("heading", { level: 1, name: "Welcome, Tamsin Holloway" }).waitFor();
    expect(theirs.url()).toBe(`${bench.url}/join`);
    await theirs.getByLabel("Name to sign in with").fill("tamsin");
    await theirs.getByRole("textbox", { name: "Password" }).fill("tamsin tamsin");
    await theirs.getByRole("button", { name: "Make the account" }).click();
    await theirs.getByText("This is made of a name.").waitFor();
    await theirs.getByRole("textbox", { name: "Password" }).fill("seven brass thimbles");
    await theirs.getByRole("button", { name: "Make the account" }).click();
    await theirs.getByText("There is nobody on the caseload yet.").waitFor();
    expect(await theirs.getByRole("banner").getByText("Tamsin Holloway").isVisible()).toBe(true);

    await page.reload();
    await lineOf(page, "Tamsin Holloway").getByText("Signs in as “tamsin” with a password").waitFor();
    expect(await page.getByText("Links not used yet").count()).toBe(0);
  });

  it("cannot join by a link that was taken back", async () => {
    const page = await bench.visit("/clinic/colleagues");
    await page.getByRole("button", { name: "Add a colleague" }).click();
    await page.getByLabel("Name shown").fill("Orrin Blackwood");
    await page.getByRole("radio", { name: /^Reader/ }).check();
    await page.getByRole("button", { name: "Make a link" }).click();
    await page.getByLabel("The link, shown once").waitFor();
    const link = await shownLink(page);
    await page.getByRole("button", { name: "Done" }).click();
    await page.getByRole("button", { name: "Take back the link for Orrin Blackwood" }).click();
    await page.getByText("Links not used yet").waitFor({ state: "detached" });
    const theirs = await bench.visit("/", { as: "nobody" });
    await theirs.goto(link);
    await theirs.getByText("The lead of the service can make you another link.").waitFor();
    expect(await theirs.getByRole("textbox").count()).toBe(0);
  });

  it("gets a new password by a link, is signed out elsewhere, and needs no wait", async () => {
    const elsewhere = await bench.visit("/people", { as: nurse });
    await elsewhere.getByText("Nobody is on record yet.").waitFor();
    const page = await bench.visit("/clinic/colleagues");
    await actOn(page, nurse.displayName, "Link for a new password");
    await page.getByRole("button", { name: "Make a link" }).click();
    await page.getByLabel("The link, shown once").waitFor();

    const theirs = await bench.visit("/", { as: "nobody" });
    await theirs.goto(await shownLink(page));
    await theirs.getByText(`who signs in as “${nurse.signInName}”`).waitFor();
    await theirs.getByRole("textbox", { name: "New password" }).fill("new slate chimney");
    await theirs.getByRole("button", { name: "Set it and sign in" }).click();
    await theirs.getByText("There is nobody on the caseload yet.").waitFor();

    await elsewhere.getByRole("link", { name: "Today" }).click();
    const again = elsewhere.getByRole("dialog", { name: "Sign in again" });
    await again.getByRole("textbox", { name: "Password" }).fill("new slate chimney");
    await elsewhere.keyboard.press("Enter");
    await elsewhere.getByText("There is nobody on the caseload yet.").waitFor();
  });

  it("may only read once the lead says so, from the next page on", async () => {
    const theirs = await bench.visit("/", { as: "nobody" });
    await typeSignIn(theirs, { signInName: nurse.signInName, password: "new slate chimney" });
    await theirs.getByRole("link", { name: "Add the first person" }).waitFor();
    const page = await bench.visit("/clinic/colleagues");
    await page.getByRole("button", { name: `Change the role of ${nurse.displayName}` }).click();
    await page.getByRole("radio", { name: /^Reader/ }).check();
    await page.getByRole("button", { name: "Set the role" }).click();
    await lineOf(page, nurse.displayName).getByText("Reader").waitFor();
    await theirs.reload();
    await theirs.getByText("There is nobody on the caseload yet.").waitFor();
    expect(await theirs.getByRole("link", { name: "Add the first person" }).count()).toBe(0);
  });

  it("whose account is closed is out at once; what they wrote keeps their name", async () => {
    const theirs = await bench.visit("/people", { as: "nobody" });
    await typeSignIn(theirs, { signInName: nurse.signInName, password: "new slate chimney" });
    await theirs.getByText("Nobody is on record yet.").waitFor();
    const page = await bench.visit("/clinic/colleagues");
    await actOn(page, nurse.displayName, "Close the account");
    await page.getByRole("dialog").getByRole("button", { name: "Close the account" }).click();
    await page.getByText("1 closed account").click();
    await page.getByText("What was written stays under this name.").waitFor();
    await theirs.getByRole("link", { name: "Protocol" }).click();
    await theirs.getByRole("dialog", { name: "Sign in again" }).waitFor();
  });

  it("cannot be the lead herself: her own line offers only her own account", async () => {
    const page = await bench.visit("/clinic/colleagues");
    const own = lineOf(page, leadAccount.displayName);
    await own.getByRole("link", { name: "My account" }).waitFor();
    expect(await own.getByRole("button").count()).toBe(0);
  });
});
