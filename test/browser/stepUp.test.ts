import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { leadAccount, type Member, type OpenBench, openBench } from "./bench.ts";
import { typeSignIn } from "./signIn.ts";

let bench: OpenBench;
let lead: Member;
beforeAll(async () => {
  bench = await openBench();
  lead = await bench.join("lead", "Oda Merrow");
});
afterAll(() => bench.close());

const confirming = { name: "Confirm that it is you" };

/** Colleagues as the second lead sees them, eleven minutes after she signed in. */
async function lateAt(path: string) {
  const page = await bench.visit(path, { as: "nobody" });
  await typeSignIn(page, lead);
  await page.getByRole("banner").getByRole("link", { name: lead.displayName }).waitFor();
  bench.passTime(11, lead);
  return page;
}

describe("what needs a recent sign-in", () => {
  it("asks for the password, and is then done without being asked for again", async () => {
    const page = await lateAt("/clinic/colleagues");
    await page.getByRole("button", { name: "Add a colleague" }).click();
    await page.getByLabel("Name shown").fill("Tamsin Holloway");
    await page.getByRole("radio", { name: /^Reader/ }).check();
    await page.getByRole("button", { name: "Make a link" }).click();
    const dialog = page.getByRole("dialog", confirming);
    await dialog.waitFor();
    expect(await page.evaluate(() => document.activeElement?.getAttribute("type"))).toBe("password");
    await dialog.getByRole("textbox", { name: "Password" }).fill("not the password at all");
    await dialog.getByRole("button", { name: "Confirm" }).click();
    await dialog.getByRole("alert").waitFor();
    await dialog.getByRole("textbox", { name: "Password" }).fill(lead.password);
    await page.keyboard.press("Enter");
    await page.getByLabel("The link, shown once").waitFor();
    expect(await dialog.count()).toBe(0);
  });

  it("is not done where nobody confirms, and says so", async () => {
    const page = await lateAt("/clinic");
    await page.getByRole("button", { name: "Take out the whole record" }).click();
    await page.getByRole("dialog", confirming).getByRole("button", { name: "Not now" }).click();
    await page.getByRole("alert").getByText("Nothing was done").waitFor();
  });

  it("gives the file of the record once it is confirmed", async () => {
    const page = await lateAt("/clinic");
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Take out the whole record" }).click();
    const dialog = page.getByRole("dialog", confirming);
    await dialog.getByRole("textbox", { name: "Password" }).fill(lead.password);
    await dialog.getByRole("button", { name: "Confirm" }).click();
    expect((await download).suggestedFilename()).toMatch(/^record-/);
  });

  it("asks for the sign-in first where the session ended while the question stood open", async () => {
    const page = await lateAt("/clinic/colleagues");
    await page
      .getByRole("listitem")
      .filter({ hasText: leadAccount.displayName })
      .getByRole("button", { name: "More" })
      .click();
    await page.getByRole("button", { name: "Link for a new password" }).click();
    await page.getByRole("button", { name: "Make a link" }).click();
    const dialog = page.getByRole("dialog", confirming);
    await dialog.getByRole("textbox", { name: "Password" }).fill(lead.password);
    bench.passTime(31, lead);
    await dialog.getByRole("button", { name: "Confirm" }).click();
    const again = page.getByRole("dialog", { name: "Sign in again" });
    await again.getByRole("textbox", { name: "Password" }).fill(lead.password);
    await again.getByRole("button", { name: "Sign in", exact: true }).click();
    await page.getByLabel("The link, shown once").waitFor();
  });
});
