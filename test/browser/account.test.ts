import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Member, type OpenBench, openBench } from "./bench.ts";
import { typeSignIn } from "./signIn.ts";

let bench: OpenBench;
let nurse: Member;
beforeAll(async () => {
  bench = await openBench();
  nurse = await bench.join("nurse", "Hal Verity");
});
afterAll(() => bench.close());

async function ownPage() {
  const page = await bench.visit("/account", { as: "nobody" });
  await typeSignIn(page, nurse);
  await page.getByRole("heading", { name: "Where you are signed in" }).waitFor();
  return page;
}

describe("my account", () => {
  it("says what I may do, and lists where I am signed in with this place marked", async () => {
    const page = await ownPage();
    await page.getByText("Hal Verity, nurse: you may read and write about everybody.").waitFor();
    await page.getByText("This one. Signed in just now.").waitFor();
    await page.context().close();
  });

  it("ends one other place, and there the page asks to sign in again", async () => {
    const here = await ownPage();
    const there = await ownPage();
    await here.reload();
    await here
      .getByRole("button", { name: /^End: / })
      .first()
      .click();
    await expect.poll(async () => here.getByRole("button", { name: /^End: / }).count()).toBeLessThan(3);
    for (const page of [here, there]) await page.context().close();
  });

  it("signs out everywhere at once", async () => {
    const here = await ownPage();
    const there = await ownPage();
    await here.getByRole("button", { name: "Sign out everywhere, here too" }).click();
    await here.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
    await there.getByRole("link", { name: "People" }).click();
    await there.getByRole("dialog", { name: "Sign in again" }).waitFor();
    for (const page of [here, there]) await page.context().close();
  });

  it("changes the name that stands beside what I write", async () => {
    const page = await ownPage();
    await page.getByLabel("Name shown").fill("Hal Verity-Moor");
    await page.getByRole("button", { name: "Change the name" }).click();
    await page.getByText("Changed.", { exact: true }).waitFor();
    await page.getByRole("banner").getByRole("link", { name: "Hal Verity-Moor" }).waitFor();
    await page.context().close();
  });

  it("changes the password only for who knows the one before, and refuses a poor one", async () => {
    const page = await ownPage();
    const now = page.getByRole("textbox", { name: "Password now" });
    const next = page.getByRole("textbox", { name: "New password" });
    const change = page.getByRole("button", { name: "Change the password" });
    await now.fill(nurse.password);
    await next.fill("too short");
    await change.click();
    await page.getByText("This is too short. Give at least 12 characters.").waitFor();
    await next.fill("new slate chimney");
    await now.fill("not the one before");
    await change.click();
    await page.getByRole("alert").waitFor();
    await now.fill(nurse.password);
    await change.click();
    await page.getByText("Changed. Everywhere else you are signed out.").waitFor();
    expect(await next.inputValue()).toBe("");
    await page.getByRole("banner").getByRole("button", { name: "Sign out" }).click();
    await typeSignIn(page, { signInName: nurse.signInName, password: "new slate chimney" });
    await page.getByRole("heading", { name: "Where you are signed in" }).waitFor();
  });
});
