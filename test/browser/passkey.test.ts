import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { withAuthenticator } from "./authenticator.ts";
import { type Member, type OpenBench, openBench } from "./bench.ts";
import { typeSignIn } from "./signIn.ts";

let bench: OpenBench;
let nurse: Member;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  nurse = await bench.join("nurse", "Hal Verity");
  page = await bench.visit("/account", { as: "nobody" });
  await withAuthenticator(page);
  await typeSignIn(page, nurse);
  await page.getByRole("heading", { name: "Passkeys" }).waitFor();
});
afterAll(() => bench.close());

const entered = () => page.getByRole("heading", { level: 1, name: "My account" }).waitFor();

async function signOut(): Promise<void> {
  await page.getByRole("banner").getByRole("button", { name: "Sign out" }).click();
  await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
}

describe("a passkey", () => {
  it("is named when it is made, and listed by that name", async () => {
    await page.getByRole("button", { name: "Add a passkey" }).click();
    await page.getByRole("button", { name: "Add it" }).click();
    await page.getByText("Give it a name").waitFor();
    await page.getByLabel("What to call it").fill("key on my ring");
    await page.getByRole("button", { name: "Add it" }).click();
    await page.getByText("Added today, not used yet.").waitFor();
    expect(await page.getByRole("listitem").filter({ hasText: "key on my ring" }).count()).toBe(1);
  });

  it("is made once on a device for one account", async () => {
    await page.getByRole("button", { name: "Add a passkey" }).click();
    await page.getByLabel("What to call it").fill("the same again");
    await page.getByRole("button", { name: "Add it" }).click();
    await page
      .getByRole("alert")
      .getByText("This device holds a passkey for this account already.")
      .waitFor();
    await page.getByRole("button", { name: "Not now" }).click();
  });

  it("signs in without a name and without a password", async () => {
    await signOut();
    await page.getByRole("button", { name: "Use a passkey" }).click();
    await entered();
    await page.getByText("Added today, last used today.").waitFor();
  });

  it("confirms who is asking in place of the password", async () => {
    bench.passTime(11, nurse);
    await page.getByRole("checkbox", { name: /^Ask for a passkey as well/ }).click();
    const dialog = page.getByRole("dialog", { name: "Confirm that it is you" });
    await dialog.getByRole("button", { name: "Use a passkey" }).click();
    await dialog.waitFor({ state: "detached" });
    await expect.poll(() => page.getByRole("checkbox").isChecked()).toBe(true);
  });

  it("is asked for after the password where the account asks for both", async () => {
    await signOut();
    await typeSignIn(page, nurse);
    await page.getByText("The password is right.").waitFor();
    expect(await page.getByRole("heading", { level: 1, name: "My account" }).count()).toBe(0);
    await page.getByRole("button", { name: "Use my passkey" }).click();
    await entered();
  });

  it("can be taken away, and then the password alone is enough", async () => {
    await page.getByRole("checkbox").click();
    await expect.poll(() => page.getByRole("checkbox").isChecked()).toBe(false);
    await page.getByRole("button", { name: "Remove the passkey key on my ring" }).click();
    await page.getByText("You have none.").waitFor();
    await signOut();
    await typeSignIn(page, nurse);
    await entered();
  });

  it("opens an account that never had a password", async () => {
    const { link } = await bench.ask<{ link: string }>("/accounts/links", {
      role: "reader",
      displayName: "Tamsin Holloway",
    });
    const theirs = await bench.visit("/", { as: "nobody" });
    await withAuthenticator(theirs);
    await theirs.goto(link);
    await theirs.getByLabel("Name to sign in with").fill("tamsin");
    await theirs.getByRole("button", { name: "With a passkey instead" }).click();
    await theirs.getByText("There is nobody on the caseload yet.").waitFor();
    await theirs.goto(`${bench.url}/account`);
    await theirs.getByText("You sign in with a passkey and have no password.").waitFor();
    await theirs.getByRole("button", { name: "Remove the passkey First passkey" }).click();
    await theirs.getByRole("alert").waitFor();
  });
});

describe("where no passkey can be had", () => {
  it("the browser’s refusal is told in words", async () => {
    const theirs = await bench.visit("/", { as: "nobody" });
    const device = await withAuthenticator(theirs);
    await theirs.getByRole("button", { name: "Use a passkey" }).click();
    await theirs.getByRole("alert").getByText("No passkey was used").waitFor();
    await device.remove();
  });

  it("the page offers none: the address is a bare number", async () => {
    const theirs = await bench.visit("/", { as: "nobody" });
    await theirs.goto(bench.url.replace("localhost", "127.0.0.1"));
    await theirs.getByRole("button", { name: "Sign in", exact: true }).waitFor();
    expect(await theirs.getByRole("button", { name: "Use a passkey" }).count()).toBe(0);
  });
});
