import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type OpenBench, openBench } from "./bench.ts";
import { fittedPerson } from "./fittingPeople.ts";

let bench: OpenBench;
let path: string;
beforeAll(async () => {
  bench = await openBench();
  ({ path } = await fittedPerson(bench, "Edda Farrowby"));
});
afterAll(() => bench.close());

const write = async (page: Page) => {
  await page.getByLabel("Length, head to foot").fill("31");
  await page.getByLabel("Width, side to side").fill("28");
  await page.getByLabel("Height, lowest side").fill("18");
  await page.getByText(/^The proposed opening fits until/).waitFor();
};
const faultsOf = async (page: Page) => {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`,
  );
};
const overflow = (page: Page) =>
  page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");

describe("the fitting is for everybody", () => {
  const looks = [
    { width: 1280, colorScheme: "light" },
    { width: 1280, colorScheme: "dark" },
    { width: 390, colorScheme: "light" },
    { width: 390, colorScheme: "dark" },
  ] as const;

  it.each(looks)("no fault that axe knows at $width px, $colorScheme", async (look) => {
    const page = await bench.visit(path, look);
    await write(page);
    await page.getByText("The edge as figures, by the clock").click();
    expect(await faultsOf(page)).toEqual([]);
    await page.getByRole("radio", { name: "Tracing" }).check();
    expect(await faultsOf(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
  });

  it("the dialogs have none either", async () => {
    const page = await bench.visit(path);
    await page.getByRole("button", { name: "Print cutting sheet" }).click();
    expect(await faultsOf(page)).toEqual([]);
    await page.getByRole("button", { name: "Not now" }).click();
    await page.getByRole("button", { name: "Put this opening in use" }).click();
    expect(await faultsOf(page)).toEqual([]);
  });

  it("the plate is said in words, and head, right and left stand on it", async () => {
    const page = await bench.visit(path);
    await write(page);
    const plate = page.getByRole("group", { name: /Outline of the stoma on a millimetre grid/ });
    const id = await plate.getAttribute("aria-describedby");
    const words = await page.locator(`[id="${id}"]`).textContent();
    expect(words).toMatch(/31\.0 mm long, head to foot, and 28\.0 mm wide/);
    expect(words).toMatch(/The opening in use leaves a gap of 2\.7 to 4\.3 mm each side/);
    for (const text of ["head", "person’s right", "person’s left"]) {
      expect(await plate.locator("text", { hasText: new RegExp(`^${text}$`) }).isVisible()).toBe(true);
    }
  });

  it("with text at 200 % on a phone nothing runs off the side, and the figures on the plate have grown", async () => {
    const page = await bench.visit(path, { width: 390 });
    await write(page);
    const size = () =>
      page
        .locator(".fit-plate text", { hasText: "head" })
        .evaluate((text) =>
          Number(text.getAttribute("font-size") ?? getComputedStyle(text).fontSize.replace("px", "")),
        );
    const before = await size();
    await page.evaluate('document.documentElement.style.fontSize = "200%"');
    await expect.poll(size).toBeGreaterThan(before);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
  });

  it("a finger takes hold of a handle within 22 px of it and drags the edge; the page does not scroll", async () => {
    const context = await bench.context({
      viewport: { width: 390, height: 844 },
      hasTouch: true,
      isMobile: true,
    });
    const page = await context.newPage();
    await page.goto(bench.url + path);
    await write(page);
    const handle = page.getByRole("slider", { name: "Edge at 3 o’clock, from the centre" });
    await handle.scrollIntoViewIfNeeded();
    const scrolled = (await page.evaluate("scrollY")) as number;
    const box = (await handle.boundingBox())!;
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
    const [x, y] = [box.x + box.width / 2 + 15, box.y + box.height / 2 + 8];
    const finger = await context.newCDPSession(page);
    await finger.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [{ x, y }] });
    for (let step = 1; step <= 12; step += 1) {
      await finger.send("Input.dispatchTouchEvent", {
        type: "touchMove",
        touchPoints: [{ x: x + step, y: y + step }],
      });
    }
    await finger.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
    await expect.poll(async () => Number(await handle.getAttribute("aria-valuenow"))).toBeGreaterThan(15.5);
    expect(Math.abs(((await page.evaluate("scrollY")) as number) - scrolled)).toBeLessThan(3);
    await context.close();
  });
});
