import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  areaMm2,
  dimensionsOf,
  type Outline,
  outlineOf,
  type Shape,
} from "../../src/domain/outline/index.ts";
import { type OpenBench, openBench } from "./bench.ts";
import { chooseFile, drawOnPlate, entriesOf, fittedPerson, unmeasuredPerson } from "./fittingPeople.ts";

let bench: OpenBench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

interface Measured {
  method: string;
  shape: Shape;
  stepMm?: number;
  heightMm?: number;
  source?: string;
}
const measured = (personId: string) => entriesOf<Measured>(bench, personId, "measured");
const cell = (page: Page, row: string, column: number) =>
  page.locator(".fit-table tr", { hasText: row }).locator("td").nth(column);
const saved = (page: Page) => page.getByText("The reading stands in the record").waitFor();
const typeOval = async (page: Page, lengthMm: string, widthMm: string) => {
  await page.getByLabel("Length, head to foot").fill(lengthMm);
  await page.getByLabel("Width, side to side").fill(widthMm);
};

describe("a guide reading", () => {
  it("gives both figures of both openings at once, and how long the proposed one fits", async () => {
    const { path } = await fittedPerson(bench, "Edda Farrowby");
    const page = await bench.visit(path);
    await page.getByText(/On the plate: the reading of/).waitFor();
    await typeOval(page, "31", "28");
    expect(await cell(page, "Gap each side", 0).textContent()).toBe("2.7 to 4.3 mm");
    expect(await cell(page, "Gap each side", 1).textContent()).toBe("2.0 mm");
    expect(await cell(page, "Hole across", 0).textContent()).toBe("36.5 mm");
    expect(await cell(page, "Hole across", 1).textContent()).toBe("32.0 to 35.0 mm");
    await page.getByText(/^The proposed opening fits until day \d+/).waitFor();
    expect(await page.getByText(/80 % range: day .* from 6 readings/).isVisible()).toBe(true);
    expect(await page.getByText(/Measure again by day \d+.*whatever this says/).isVisible()).toBe(true);
  });

  it("is saved as the ring that cleared, and lies on the plate from then on", async () => {
    const { path, personId } = await fittedPerson(bench, "Lowell Greaves");
    const page = await bench.visit(path);
    await typeOval(page, "31", "28,0");
    await page.getByLabel("Tilt").fill("12");
    await page.getByLabel("Height, lowest side").fill("18");
    await page.getByText(/Height 18 mm is low for an ileostomy/).waitFor();
    await page.getByRole("button", { name: "Save the reading" }).click();
    await saved(page);
    const [last] = (await measured(personId)).slice(-1);
    expect(last!.body).toEqual({
      method: "guide",
      shape: { guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 12 } },
      stepMm: 1,
      heightMm: 18,
    });
    await page.getByText(/On the plate: the reading of today .*31\.0 × 28\.0\smm, by Ines Varga/).waitFor();
    expect(await page.getByLabel("Length, head to foot").inputValue()).toBe("");
  });

  it("can be written down later, for the day it was taken", async () => {
    const { path, personId } = await unmeasuredPerson(bench, "Odo Quill");
    const page = await bench.visit(path);
    await page.getByText("Give a size, and the opening is proposed.").waitFor();
    await page.getByRole("radio", { name: "Round" }).check();
    await page.getByLabel("Ring that clears").fill("30");
    await page.getByText("How long the proposed opening fits cannot be said yet.").waitFor();
    await page.getByRole("radio", { name: "Earlier" }).check();
    const date = new Date(Date.now() - 3 * 86_400_000).toISOString().slice(0, 10);
    await page.getByLabel("Date").fill(date);
    await page.getByLabel("Time").fill("");
    await page.getByRole("button", { name: "Save the reading" }).click();
    await saved(page);
    expect((await measured(personId))[0]!.at).toEqual({ date, precision: "day" });
  });

  it("begun by mistake is thrown away, and the last one lies on the plate again", async () => {
    const { path, personId } = await fittedPerson(bench, "Lena Morrow");
    const page = await bench.visit(path);
    await typeOval(page, "31", "28");
    await page.getByText("A new reading, not saved yet.").waitFor();
    await page.getByRole("button", { name: "Throw it away" }).click();
    await page.getByText(/On the plate: the reading of/).waitFor();
    await page.reload();
    await page.getByText(/On the plate: the reading of/).waitFor();
    expect(await measured(personId)).toHaveLength(5);
  });

  it("without its figures is not saved, and says which", async () => {
    const { path, personId } = await unmeasuredPerson(bench, "Wilma Tarn");
    const page = await bench.visit(path);
    await page.getByLabel("Length, head to foot").fill("310");
    await page.getByText("A size lies between 1 and 200 mm.").waitFor();
    await page.getByRole("button", { name: "Save the reading" }).click();
    await page.getByText("Write the figure.").waitFor();
    expect(await measured(personId)).toEqual([]);
  });

  it("a gap over the protocol's is warned of, with the value, and stops nobody", async () => {
    const { path } = await fittedPerson(bench, "Gap Overton");
    const page = await bench.visit(path);
    await page.getByLabel("Gap each side").fill("4");
    await page
      .getByText(/A gap of 4 mm each side \(8 mm more across\) is over the protocol's 3\.2 mm/)
      .waitFor();
    expect(await page.getByRole("button", { name: "Print cutting sheet" }).isEnabled()).toBe(true);
    await page.getByLabel("Gap each side").fill("7");
    await page.getByText("A gap lies between 0 and 6 mm.").waitFor();
  });
});

describe("the handles", () => {
  it("by keyboard: a tenth of a millimetre a press, one with Shift; the figures follow", async () => {
    const { path } = await fittedPerson(bench, "Kit Amberley");
    const page = await bench.visit(path);
    await typeOval(page, "31", "28");
    const handle = page.getByRole("slider", { name: "Edge at 3 o’clock, from the centre" });
    await handle.focus();
    expect(await handle.getAttribute("aria-valuetext")).toBe("14.0 millimetres");
    const before = await cell(page, "Exposed skin", 0).textContent();
    await page.keyboard.press("ArrowRight");
    expect(await handle.getAttribute("aria-valuetext")).toBe("14.1 millimetres");
    await page.keyboard.press("Shift+ArrowUp");
    expect(await handle.getAttribute("aria-valuetext")).toBe("15.1 millimetres");
    expect(await page.getByText("15.1 mm out").isVisible()).toBe(true);
    expect(await cell(page, "Exposed skin", 0).textContent()).not.toBe(before);
    await page.getByText("Adjusted by hand: kept as an outline, no longer as a ring.").waitFor();
    await page.keyboard.press("Control+z");
    expect(await handle.getAttribute("aria-valuetext")).toBe("14.0 millimetres");
    await page.keyboard.press("Control+Shift+z");
    expect(await handle.getAttribute("aria-valuetext")).toBe("15.1 millimetres");
  });

  it("by mouse: the edge follows the pointer and the figures with it", async () => {
    const { path } = await fittedPerson(bench, "Drew Larkin");
    const page = await bench.visit(path);
    await typeOval(page, "31", "28");
    await page.getByRole("slider").first().waitFor();
    const pxPerMm = Number(await page.locator(".fit-plate").getAttribute("data-px-per-mm"));
    const handle = page.getByRole("slider", { name: "Edge at 3 o’clock, from the centre" });
    const box = (await handle.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.evaluate(timeSteps);
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let step = 1; step <= 40; step += 1) await page.mouse.move(x + (step / 40) * 2 * pxPerMm, y);
    await page.mouse.up();
    expect(Number(await handle.getAttribute("aria-valuenow"))).toBeCloseTo(16, 0);
    const steps = (await page.evaluate("globalThis.stepsMs")) as number[];
    const middle = steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)]!;
    console.log(`drag step to figures: median ${middle.toFixed(1)} ms of ${steps.length} steps`);
    expect(steps.length).toBeGreaterThan(0);
  });

  it("typed: the edge as figures does the same", async () => {
    const { path } = await fittedPerson(bench, "Nell Corrie");
    const page = await bench.visit(path);
    await typeOval(page, "31", "28");
    await page.getByText("The edge as figures, by the clock").click();
    await page.getByLabel("6 o’clock", { exact: true }).fill("17,5");
    const six = page.getByRole("slider", { name: "Edge at 6 o’clock, from the centre" });
    expect(await six.getAttribute("aria-valuetext")).toBe("17.5 millimetres");
    expect(await page.getByLabel("12 o’clock", { exact: true }).inputValue()).toBe("15.5");
    await page.getByRole("button", { name: "24 handles" }).click();
    expect(await page.getByRole("slider", { name: /^Edge at/ }).count()).toBe(24);
  });

  it("an adjusted ring is saved as an outline that says where it came from", async () => {
    const { path, personId } = await fittedPerson(bench, "Rowan Pike");
    const page = await bench.visit(path);
    await typeOval(page, "31", "28");
    await page.getByRole("slider", { name: "Edge at 4 o’clock, from the centre" }).focus();
    await page.keyboard.press("Shift+ArrowUp");
    await page.getByRole("button", { name: "Save the reading" }).click();
    await saved(page);
    const { body } = (await measured(personId)).at(-1)!;
    expect(body).toMatchObject({
      method: "typed",
      source: "From a guide reading of 31 × 28 mm, adjusted by hand",
    });
  });
});

describe("a tracing", () => {
  it("drawn with the mouse closes by itself, is smoothed with the hand's line in view, and saved in millimetres", async () => {
    const { path, personId } = await unmeasuredPerson(bench, "Tamsin Reeve");
    const page = await bench.visit(path);
    await page.getByRole("radio", { name: "Tracing" }).check();
    await page.getByRole("button", { name: "Draw on the plate" }).click();
    await drawOnPlate(page, (turn) => 15 + 0.3 * Math.sin(23 * turn));
    await page.getByText(/Smoothing moves the line by 0\.\d\smm at most/).waitFor();
    expect(await page.getByText("Line as drawn", { exact: true }).isVisible()).toBe(true);
    await page.getByRole("button", { name: "Save the reading" }).click();
    await saved(page);
    const { body } = (await measured(personId)).at(-1)!;
    expect(body.method).toBe("tracing");
    expect(body.source).toContain("Drawn on the screen; ");
    const outline = outlineOf(body.shape);
    expect(Math.abs(areaMm2(outline) / (Math.PI * 15 ** 2) - 1)).toBeLessThan(0.03);
    expect(furthest(outline)).toBeLessThan(16);
  });

  it("that crosses itself is not taken, and the place is said", async () => {
    const { path } = await unmeasuredPerson(bench, "Figg Eight");
    const page = await bench.visit(path);
    await page.getByRole("radio", { name: "Tracing" }).check();
    await page.getByRole("button", { name: "Draw on the plate" }).click();
    await drawOnPlate(page, (turn) => 15 * Math.cos(turn) ** 2 * Math.sign(Math.cos(turn)) || 0.1, 1);
    await page.getByText(/crosses itself at|encloses next to nothing/).waitFor();
    expect(await page.getByRole("slider", { name: /^Edge at/ }).count()).toBe(0);
  });

  it("from an SVG file: the line is chosen by name and keeps its size; turned and mirrored as it was traced", async () => {
    const { path, personId } = await unmeasuredPerson(bench, "Vesna Holt");
    const page = await bench.visit(path);
    await page.getByRole("radio", { name: "Tracing" }).check();
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="80mm" viewBox="0 0 80 80">
      <rect x="2" y="2" width="50" height="5" id="bar"/><ellipse id="stoma" cx="40" cy="40" rx="15.5" ry="14"/></svg>`;
    await chooseFile(page, "Read SVG or CSV", "tracing.svg", svg);
    await page.getByRole("radio", { name: "stoma: 28.0 × 31.0 mm" }).check();
    await page.getByRole("button", { name: "Take this line" }).click();
    await page.getByText("Length, head to foot 28.0 mm; width, side to side 31.0 mm.").waitFor();
    await page.getByRole("button", { name: "Turn by 90°" }).click();
    await page.getByText("Length, head to foot 31.0 mm; width, side to side 28.0 mm.").waitFor();
    await page.getByLabel(/Traced from the skin side/).check();
    await page.getByRole("button", { name: "Save the reading" }).click();
    await saved(page);
    const { body } = (await measured(personId)).at(-1)!;
    expect(body.source).toBe("SVG file, “stoma”; mirrored, traced from the skin side; turned 90°");
    expect(Math.abs(areaMm2(outlineOf(body.shape)) / (Math.PI * 15.5 * 14) - 1)).toBeLessThan(0.001);
  });

  it("from a CSV file with decimal commas; a file that is no tracing is refused in a sentence", async () => {
    const { path, personId } = await unmeasuredPerson(bench, "Ivo Lindgren");
    const page = await bench.visit(path);
    await page.getByRole("radio", { name: "Tracing" }).check();
    await chooseFile(page, "Read SVG or CSV", "bad.csv", "x;y\n1;2\n3;three\n5;6");
    await page.getByText("Line 3 is not two numbers: “3 three”.").waitFor();
    await chooseFile(page, "Read SVG or CSV", "hostile.svg", "<svg><script>alert(1)</script></svg>");
    await page.getByText(/The file holds a script/).waitFor();
    const points = Array.from({ length: 60 }, (_, i) => {
      const turn = (i * 2 * Math.PI) / 60;
      return `${(15 * Math.cos(turn)).toFixed(3)};${(12 * Math.sin(turn)).toFixed(3)}`.replaceAll(".", ",");
    });
    await chooseFile(page, "Read SVG or CSV", "points.csv", `\uFEFFx_mm;y_mm\r\n${points.join("\r\n")}`);
    await page.getByRole("button", { name: "Take this line" }).click();
    await page.getByRole("button", { name: "Save the reading" }).click();
    await saved(page);
    const sizes = dimensionsOf(outlineOf((await measured(personId)).at(-1)!.body.shape));
    expect(sizes.widthMm).toBeCloseTo(30, 1);
    expect(sizes.lengthMm).toBeCloseTo(24, 1);
  });

  it("over a scan: two marks a known distance apart bring it to scale, and nothing of the picture is kept", async () => {
    const { path, personId } = await unmeasuredPerson(bench, "Sela Brandt");
    const page = await bench.visit(path);
    await page.getByRole("radio", { name: "Tracing" }).check();
    await chooseFile(page, "Place a scan", "scan.png", await scanOfBar(page));
    await page.getByText("Not to scale yet").waitFor();
    // The picture is 800 px wide and lies 80 mm wide at first; its bar runs from 150 to 650 px.
    for (const [name, from, to] of [
      ["First", 200, 150],
      ["Second", 600, 650],
    ] as const) {
      await page.getByRole("button", { name: `${name} mark on the scan` }).focus();
      const presses = Math.round(Math.abs(to - from) / 10 / 2);
      for (let press = 0; press < presses; press += 1) {
        await page.keyboard.press(to > from ? "Shift+ArrowRight" : "Shift+ArrowLeft");
      }
      await page.keyboard.press(to > from ? "ArrowRight" : "ArrowLeft");
    }
    await page.getByLabel("Between the marks").fill("50");
    await page.getByRole("button", { name: "Set the scale and trace" }).click();
    await drawOnPlate(page, () => 14);
    await page.getByText(/Traced over a scan, to scale by 50 mm between two marks/).waitFor();
    await page.getByRole("button", { name: "Save the reading" }).click();
    await saved(page);
    const { body } = (await measured(personId)).at(-1)!;
    expect(Math.abs(areaMm2(outlineOf(body.shape)) / (Math.PI * 14 ** 2) - 1)).toBeLessThan(0.03);
    expect(JSON.stringify(body)).not.toContain("scan.png");
  });
});

function furthest(outline: Outline): number {
  return Math.max(...outline.map(([x, y]) => Math.hypot(x, y)));
}

/** A picture of 800 by 600 px with a bar of 500 px on it, drawn in the page. */
async function scanOfBar(page: Page): Promise<Buffer> {
  const base64 = (await page.evaluate(`(() => {
    const canvas = document.createElement("canvas");
    canvas.width = 800;
    canvas.height = 600;
    const pen = canvas.getContext("2d");
    pen.fillRect(150, 450, 500, 6);
    return canvas.toDataURL("image/png").split(",")[1];
  })()`)) as string;
  return Buffer.from(base64, "base64");
}

/** Runs in the page: notes the time from each pointer move to the change of the figures in the table. */
const timeSteps = `(() => {
  globalThis.stepsMs = [];
  let moved = 0;
  document.addEventListener("pointermove", () => { moved ||= performance.now(); }, true);
  new MutationObserver(() => {
    if (moved) globalThis.stepsMs.push(performance.now() - moved);
    moved = 0;
  }).observe(document.querySelector(".fit-table"), { subtree: true, characterData: true, childList: true });
})()`;
