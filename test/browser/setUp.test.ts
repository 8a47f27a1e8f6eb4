import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type OpenBench, openBench } from "./bench.ts";

let bench: OpenBench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

describe("a bench that nobody has set up", () => {
  it("leads every address to the set-up, with the browser's time zone filled in", async () => {
    for (const path of ["/", "/people", "/protocol", "/people/0b5eac3c-d717-4cc0-b2a9-6c8cc8e139a2"]) {
      const page = await bench.visit(path);
      await page.getByRole("heading", { level: 1, name: "Set up the clinic" }).waitFor();
      expect(new URL(page.url()).pathname).toBe("/clinic");
      expect(await page.getByLabel("Time zone").inputValue()).toBe("Europe/London");
    }
  });

  it("says what is missing and puts the cursor there", async () => {
    const page = await bench.visit("/clinic");
    await page.getByRole("button", { name: "Start" }).click();
    const name = page.getByLabel("Name of the clinic");
    await expect.poll(() => name.evaluate((element) => element === document.activeElement)).toBe(true);
    expect(await name.getAttribute("aria-invalid")).toBe("true");
    expect(await page.getByText("Write the number that people are to call.").isVisible()).toBe(true);
  });

  it("keeps what was typed through a failed save and a reload, and opens Today once it is saved", async () => {
    const page = await bench.visit("/clinic");
    await page.getByLabel("Name of the clinic").fill("Thornmere Stoma Clinic");
    await page.getByLabel("Your name").fill("Ines Varga");
    await page.getByLabel("Number in clinic hours").fill("555-0100");

    await page.route("**/api/clinic", (route) => route.abort());
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByRole("alert").getByText("The bench does not answer").waitFor();
    await page.unroute("**/api/clinic");

    await page.reload();
    expect(await page.getByLabel("Name of the clinic").inputValue()).toBe("Thornmere Stoma Clinic");
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByText("There is nobody on the caseload yet.").waitFor();
    expect(await page.getByRole("banner").getByText("Thornmere Stoma Clinic · Ines Varga").isVisible()).toBe(
      true,
    );
  });

  it("lets the details be changed later", async () => {
    const page = await bench.visit("/clinic");
    await page.getByLabel("Number out of hours").fill("555-0199");
    await page.getByRole("button", { name: "Save the details" }).click();
    await page.getByText("Saved.").waitFor();
    await page.reload();
    await expect.poll(() => page.getByLabel("Number out of hours").inputValue()).toBe("555-0199");
  });

  it("keeps the printer's measured bars in this browser", async () => {
    const page = await bench.visit("/clinic");
    await page.getByLabel("100 mm bar across").fill("98,5");
    await page.getByLabel("100 mm bar upright").fill("98.6");
    await page.getByRole("button", { name: "Keep for this browser" }).click();
    await page.getByText("This printer is off by 1.5 %").waitFor();
    await page.reload();
    await page.getByText("This printer is off by 1.5 %").waitFor();
    const card = await page.getByRole("link", { name: "frame card drawn for it" }).getAttribute("href");
    expect(card).toBe("/api/frame-card.pdf?paper=A4&x=0.985&y=0.986");
    const plain = await page.getByRole("link", { name: "frame card", exact: true }).getAttribute("href");
    expect(plain).toBe("/api/frame-card.pdf?paper=A4");
  });
});
