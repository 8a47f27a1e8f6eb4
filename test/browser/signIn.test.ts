import { afterAll, beforeAll, describe, expect, it } from "vitest";
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

const asNobody = (path: string) => bench.visit(path, { as: "nobody" });

describe("the sign-in", () => {
  it("stands at the address that was asked for, tells nothing of the clinic, and returns there", async () => {
    const page = await asNobody(`/people/${edda.personId}`);
    await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
    expect(await page.locator("body").textContent()).not.toMatch(/Thornmere|Edda/);
    await typeSignIn(page, leadAccount);
    await page.getByRole("heading", { level: 1, name: "Edda Farrowby" }).waitFor();
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("Edda Farrowby");
  });

  it("can be done with the keyboard alone", async () => {
    const page = await asNobody("/protocol");
    await page.getByLabel("Name", { exact: true }).focus();
    await page.keyboard.type(leadAccount.signInName);
    await page.keyboard.press("Tab");
    await page.keyboard.type(leadAccount.password);
    await page.keyboard.press("Enter");
    await page.locator(".protocol-value").first().waitFor();
  });

  it("says the same of a wrong name and of a wrong password", async () => {
    const said = async (signInName: string) => {
      const page = await asNobody("/");
      await typeSignIn(page, { signInName, password: "not the password at all" });
      const words = await page.getByRole("alert").textContent();
      await page.close();
      return words;
    };
    expect(await said(nurse.signInName)).toBe(await said("nobody.of.this.name"));
  });

  it("says what is missing before it asks the bench", async () => {
    const page = await asNobody("/");
    await page.getByRole("button", { name: "Sign in", exact: true }).click();
    await page.getByText("Write the name you sign in with.").waitFor();
    await page.getByText("Write your password.").waitFor();
  });

  it("shows the password only while it is asked to", async () => {
    const page = await asNobody("/");
    const password = page.getByLabel("Password", { exact: true });
    await password.fill("plum");
    expect(await password.getAttribute("type")).toBe("password");
    await page.getByRole("button", { name: "Show password" }).click();
    expect(await password.getAttribute("type")).toBe("text");
  });

  it("counts down in words where there were too many tries, and lets nobody press meanwhile", async () => {
    const page = await asNobody("/");
    const wrong = { signInName: "tamsin", password: "not the password at all" };
    for (let tries = 0; tries < 12; tries += 1) {
      await typeSignIn(page, wrong);
      await page.getByRole("alert").waitFor();
      if (await page.getByText("Too many tries.").first().isVisible()) break;
    }
    const words = await page.getByRole("alert").textContent();
    expect(words).toMatch(/^Too many tries\. Wait (\d+ minutes? ?)?(\d+ seconds?)? before the next one\.$/);
    const button = page.getByRole("button", { name: "Sign in", exact: true });
    expect(await button.getAttribute("aria-disabled")).toBe("true");
    await page.getByText("Too many tries.").first().waitFor({ state: "detached", timeout: 20_000 });
    expect(await button.getAttribute("aria-disabled")).toBeNull();
  });

  it("says so where the bench does not answer", async () => {
    const page = await asNobody("/");
    await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
    await page.route("**/api/sign-in", (route) => route.abort());
    await typeSignIn(page, leadAccount);
    await page.getByRole("alert").getByText("The bench does not answer").waitFor();
  });
});

describe("signing out", () => {
  it("ends the session in every tab of the browser and leaves nothing of it behind", async () => {
    const page = await asNobody("/people");
    await typeSignIn(page, leadAccount);
    await page.getByRole("link", { name: "Edda Farrowby" }).waitFor();
    const other = await page.context().newPage();
    await other.goto(`${bench.url}/people/${edda.personId}?write=noted`);
    await other.getByRole("textbox", { name: "Note" }).fill("seen by nobody else");
    await page.getByRole("button", { name: "Sign out" }).click();
    for (const tab of [page, other]) {
      await tab.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
      expect(await tab.locator("body").textContent()).not.toMatch(/Thornmere|Edda/);
      expect(await tab.evaluate(() => Object.keys(sessionStorage).join())).not.toContain("draft");
    }
    await page.goBack().catch(() => null);
    expect(await page.locator("body").textContent()).not.toMatch(/Thornmere|Edda/);
  });

  it("asks first where something typed would be lost", async () => {
    const page = await asNobody(`/people/${edda.personId}?write=noted`);
    await typeSignIn(page, nurse);
    await page.getByRole("textbox", { name: "Note" }).fill("not saved yet");
    await page.getByRole("button", { name: "Not now" }).click();
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.getByText("1 thing typed in this tab is not saved.").waitFor();
    await page.getByRole("button", { name: "Stay", exact: true }).click();
    await page.getByRole("heading", { level: 1, name: "Edda Farrowby" }).waitFor();
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.getByRole("button", { name: "Drop and sign out" }).click();
    await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
  });

  it("says that it did not come about where the bench does not answer", async () => {
    const page = await asNobody("/people");
    await typeSignIn(page, nurse);
    await page.getByRole("link", { name: "Edda Farrowby" }).waitFor();
    await page.route("**/api/sign-out", (route) => route.abort());
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.getByRole("dialog").getByText("You are still signed in.").waitFor();
  });
});
