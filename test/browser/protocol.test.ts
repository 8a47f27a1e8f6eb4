import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { protocolDefinition } from "../../src/domain/protocol/index.ts";
import { type OpenBench, openBench } from "./bench.ts";

let bench: OpenBench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

const { label, min, max, default: usual } = protocolDefinition("maxGapMm");

describe("the protocol", () => {
  it("shows every value with its source and how sure it is", async () => {
    const page = await bench.visit("/protocol");
    const line = page.locator("li", { hasText: label });
    await line.waitFor();
    expect(await line.textContent()).toContain(`${usual} mm`);
    expect(await line.textContent()).toContain(protocolDefinition("maxGapMm").certainty);
  });

  it("refuses a value outside its limits with a sentence", async () => {
    const page = await bench.visit("/protocol");
    await page.getByRole("button", { name: `Change: ${label}` }).click();
    await page.getByLabel("Value", { exact: true }).fill(String(max + 1));
    await page.getByLabel("Reason").fill("trying");
    await page.getByRole("button", { name: "Set the value" }).click();
    await page.getByText(`${max + 1} mm is outside what this value may be: ${min} to ${max} mm.`).waitFor();
  });

  it("keeps who set it, when and why", async () => {
    const page = await bench.visit("/protocol");
    await page.getByRole("button", { name: `Change: ${label}` }).click();
    await page.getByLabel("Value", { exact: true }).fill("2,5");
    await page.getByLabel("Reason").fill("our surgeons ask for a closer fit");
    await page.getByRole("button", { name: "Set the value" }).click();
    await page.getByRole("dialog").waitFor({ state: "detached" });
    const line = page.locator("li", { hasText: label });
    await line.getByText("Set by Ines Varga").waitFor();
    expect(await line.textContent()).toContain("2.5 mm");
    expect(await line.textContent()).toContain(`default ${usual} mm`);
    expect(await line.textContent()).toContain("“our surgeons ask for a closer fit”");
    expect(await page.getByText("One value differs from the default.").isVisible()).toBe(true);
  });
});
