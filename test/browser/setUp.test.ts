import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { leadAccount, type OpenBench, openBench } from "./bench.ts";

let bench: OpenBench;
let link: string;
beforeAll(async () => {
  bench = await openBench({ setUp: false });
  link = new URL(bench.setUpLinks[0]!).pathname + new URL(bench.setUpLinks[0]!).hash;
});
afterAll(() => bench.close());

const asNobody = (path: string) => bench.visit(path, { as: "nobody" });

describe("a bench that nobody has set up", () => {
  it("says at every address that the link is in the window where it was started", async () => {
    for (const path of ["/", "/people", "/protocol", "/people/0b5eac3c-d717-4cc0-b2a9-6c8cc8e139a2"]) {
      const page = await asNobody(path);
      await page.getByRole("heading", { level: 1, name: "This bench is not set up yet" }).waitFor();
      await page.close();
    }
  });

  it("asks for the link again where its page was loaded without one", async () => {
    const page = await asNobody("/set-up");
    await page.getByText("open the link itself again").waitFor();
    expect(await page.getByRole("textbox").count()).toBe(0);
  });

  it("lets nobody in by a made-up link", async () => {
    const page = await asNobody("/set-up#made-up-0123456789-0123456789-0123456789");
    await page.getByRole("link", { name: "Go to the bench" }).waitFor();
    expect(await page.getByRole("textbox").count()).toBe(0);
  });

  it("takes the link’s secret out of the address at once, and fills in the browser’s time zone", async () => {
    const page = await asNobody(link);
    await page.getByRole("heading", { level: 1, name: "Set up the clinic" }).waitFor();
    expect(page.url()).toBe(`${bench.url}/set-up`);
    expect(await page.getByLabel("Time zone").inputValue()).toBe("Europe/London");
    const kept = await page.evaluate(() => JSON.stringify([{ ...localStorage }, { ...sessionStorage }]));
    expect(kept).not.toContain(link.split("#")[1]);
  });

  it("takes a link that is pasted into a tab which stands there already", async () => {
    const page = await asNobody("/set-up");
    await page.getByText("open the link itself again").waitFor();
    await page.goto(bench.url + link);
    await page.getByLabel("Name of the clinic").waitFor();
    expect(page.url()).toBe(`${bench.url}/set-up`);
  });

  it("says what is missing and puts the cursor there", async () => {
    const page = await asNobody(link);
    await page.getByRole("button", { name: "Start" }).click();
    const name = page.getByLabel("Name of the clinic");
    await expect.poll(() => name.evaluate((element) => element === document.activeElement)).toBe(true);
    expect(await name.getAttribute("aria-invalid")).toBe("true");
    expect(await page.getByText("Write the number that people are to call.").isVisible()).toBe(true);
    expect(await page.getByText("This is too short. Give at least 12 characters.").isVisible()).toBe(true);
  });

  it("refuses a password made of the clinic’s name", async () => {
    const page = await asNobody(link);
    await typeClinic(page);
    await page.getByRole("textbox", { name: "Password" }).fill("thornmere2026");
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByText("This is made of a name.").waitFor();
  });

  it("keeps what was typed through a failed save and a reload, but never the password", async () => {
    const page = await asNobody(link);
    await typeClinic(page);
    await page.getByRole("textbox", { name: "Password" }).fill(leadAccount.password);
    await page.route("**/api/set-up", (route) => route.abort());
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByRole("alert").getByText("The bench does not answer").waitFor();
    await page.unroute("**/api/set-up");
    const kept = await page.evaluate(() => JSON.stringify({ ...sessionStorage }));
    expect(kept).toContain("Thornmere Stoma Clinic");
    expect(kept).not.toContain(leadAccount.password);

    await page.reload();
    await page.goto(bench.url + link);
    expect(await page.getByLabel("Name of the clinic").inputValue()).toBe("Thornmere Stoma Clinic");
    expect(await page.getByRole("textbox", { name: "Password" }).inputValue()).toBe("");
  });

  it("opens once clinic and account are made, and asks for the recovery key on paper", async () => {
    const page = await asNobody(link);
    await typeClinic(page);
    await page.getByRole("textbox", { name: "Password" }).fill(leadAccount.password);
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByRole("heading", { level: 1, name: "The clinic is set up" }).waitFor();
    expect(await page.getByText("roundel keys prove").isVisible()).toBe(true);
    await page.getByRole("link", { name: "Go to Today" }).click();
    await page.getByText("There is nobody on the caseload yet.").waitFor();
    const head = page.getByRole("banner");
    expect(await head.getByText("Thornmere Stoma Clinic").isVisible()).toBe(true);
    expect(await head.getByRole("link", { name: "Ines Varga" }).isVisible()).toBe(true);
  });

  it("does not open a second time by the same link", async () => {
    const page = await asNobody(link);
    await page.getByRole("link", { name: "Go to the bench" }).click();
    await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
  });
});

async function typeClinic(page: Page): Promise<void> {
  await page.getByLabel("Name of the clinic").fill("Thornmere Stoma Clinic");
  await page.getByLabel("Your name").fill("Ines Varga");
  await page.getByLabel("Number in clinic hours").fill("555-0100");
  await page.getByLabel("Name to sign in with").fill("ines");
}
