import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type OpenBench, openBench } from "./bench.ts";
import { entriesOf, fittedPerson } from "./fittingPeople.ts";

let bench: OpenBench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

const typeOval = async (page: Page) => {
  await page.getByLabel("Length, head to foot").fill("31");
  await page.getByLabel("Width, side to side").fill("28");
};
const sheetAsked = (page: Page) =>
  page.waitForResponse((response) => response.url().endsWith("/cutting-sheet") && response.status() === 200);

describe("a save that fails", () => {
  it("keeps everything typed, through a reload too, and the retry writes one entry", async () => {
    const { path, personId } = await fittedPerson(bench, "Maud Tranter");
    const page = await bench.visit(path);
    await typeOval(page);
    await page.getByLabel("Height, lowest side").fill("21");
    await page.getByLabel("Note").fill("soft at 3 o’clock");
    await page.getByRole("slider", { name: "Edge at 4 o’clock, from the centre" }).focus();
    await page.keyboard.press("Shift+ArrowUp");
    await page.route("**/api/entries", (route) => route.abort());
    await page.getByRole("button", { name: "Save the reading" }).click();
    await page.getByText("The bench does not answer. What you typed is kept here").waitFor();
    await page.reload();
    await page.getByText("A new reading, not saved yet.").waitFor();
    expect(await page.getByLabel("Length, head to foot").inputValue()).toBe("31");
    expect(await page.getByLabel("Height, lowest side").inputValue()).toBe("21");
    expect(await page.getByLabel("Note").inputValue()).toBe("soft at 3 o’clock");
    expect(
      await page
        .getByRole("slider", { name: "Edge at 4 o’clock, from the centre" })
        .getAttribute("aria-valuetext"),
    ).toMatch(/^15\.\d millimetres$/);
    await page.unroute("**/api/entries");
    await page.getByRole("button", { name: "Save the reading" }).click();
    await page.getByText("The reading stands in the record").waitFor();
    expect(await entriesOf(bench, personId, "measured")).toHaveLength(6);
  });

  it("whose answer was lost on the way back is found to be saved when it is tried again", async () => {
    const { path, personId } = await fittedPerson(bench, "Ansel Wray");
    const page = await bench.visit(path);
    await typeOval(page);
    let lost = 0;
    await page.route("**/api/entries", async (route) => {
      if (lost++ > 0) return route.continue();
      await route.fetch();
      await route.abort();
    });
    await page.getByRole("button", { name: "Save the reading" }).click();
    await page.getByText("The bench does not answer").waitFor();
    await page.getByRole("button", { name: "Save the reading" }).click();
    await page.getByText("The reading stands in the record").waitFor();
    expect(await entriesOf(bench, personId, "measured")).toHaveLength(6);
  });
});

describe("a cutting sheet", () => {
  it("saves the reading first, comes as a PDF with its number, and asks for its bars before it is used", async () => {
    const { path, personId } = await fittedPerson(bench, "Bram Hollis");
    const page = await bench.visit(path);
    await typeOval(page);
    await page.getByRole("button", { name: "Print cutting sheet" }).click();
    await page.getByText("The reading is saved first, as it stands on the page.").waitFor();
    const answer = sheetAsked(page);
    await page.getByRole("button", { name: "Save the reading and make the sheet" }).click();
    const response = await answer;
    expect(response.headers()["content-type"]).toBe("application/pdf");
    await page.getByText("Sheet 1 is made and stands in the record.").waitFor();
    const download = page.waitForEvent("download");
    await page.getByRole("link", { name: "Keep the file" }).click();
    const file = await download;
    expect(file.suggestedFilename()).toBe("cutting-sheet-1.pdf");
    expect(
      readFileSync(await file.path())
        .subarray(0, 5)
        .toString(),
    ).toBe("%PDF-");
    const [advised] = await entriesOf<{ measuredId: string; clearanceMm: number }>(
      bench,
      personId,
      "advised",
    );
    const measured = await entriesOf(bench, personId, "measured");
    expect(advised!.body).toMatchObject({ measuredId: measured.at(-1)!.id, clearanceMm: 2 });

    await page.getByRole("button", { name: "Check the bars" }).click();
    await page.getByText("Write both lengths, such as 99.8.").waitFor();
    await page.getByLabel("100 mm bar across").fill("100");
    await page.getByLabel("100 mm bar upright").fill("99,6");
    await page.getByRole("button", { name: "Check the bars" }).click();
    await page.getByText("The bars are true. The sheet may be used.").waitFor();
  });

  it("whose bars are off must not be cut from: the next is drawn to make up for the printer, kept in this browser", async () => {
    const { path } = await fittedPerson(bench, "Cleo Marsh");
    const page = await bench.visit(path);
    await page.getByRole("button", { name: "Print cutting sheet" }).click();
    const first = sheetAsked(page);
    await page.getByRole("button", { name: "Make the sheet" }).click();
    expect((await first).request().postDataJSON()).not.toHaveProperty("printScale");
    await page.getByText("Sheet 1 is made").waitFor();
    await page.getByLabel("100 mm bar across").fill("9");
    await page
      .getByText(/No printer is this far off: 92 to 108 mm/)
      .first()
      .waitFor();
    await page.getByLabel("100 mm bar across").fill("98");
    await page.getByLabel("100 mm bar upright").fill("99");
    await page.getByText("Do not cut from this sheet.").waitFor();
    const second = sheetAsked(page);
    await page.getByRole("button", { name: "Make a corrected sheet" }).click();
    expect((await second).request().postDataJSON().printScale).toEqual({ x: 0.98, y: 0.99 });
    await page.getByText("Sheet 2 is made").waitFor();
    await page.getByRole("button", { name: "Close", exact: true }).click();
    await page.getByRole("button", { name: "Print cutting sheet" }).click();
    expect(await page.getByLabel("100 mm bar across").inputValue()).toBe("98");
    await page.getByText(/The sheet is drawn to make up for this printer/).waitFor();
  });

  it("that fails is tried again as the same sheet: one reading, one advice", async () => {
    const { path, personId } = await fittedPerson(bench, "Dora Finch");
    const page = await bench.visit(path);
    await typeOval(page);
    await page.getByRole("button", { name: "Print cutting sheet" }).click();
    let lost = 0;
    await page.route("**/cutting-sheet", async (route) => {
      if (lost++ > 0) return route.continue();
      await route.fetch();
      await route.abort();
    });
    await page.getByRole("button", { name: "Save the reading and make the sheet" }).click();
    await page.getByText("The bench does not answer").waitFor();
    await page.getByRole("button", { name: "Make the sheet" }).click();
    await page.getByText("Sheet 1 is made").waitFor();
    expect(await entriesOf(bench, personId, "measured")).toHaveLength(6);
    expect(await entriesOf(bench, personId, "advised")).toHaveLength(1);
  });

  it("cannot be made where the barrier does not allow the opening, and says why", async () => {
    const { path } = await fittedPerson(bench, "Oona Strand");
    const page = await bench.visit(path);
    await page.getByLabel("Length, head to foot").fill("44");
    await page.getByLabel("Width, side to side").fill("40");
    await page.getByRole("button", { name: "Print cutting sheet" }).click();
    const dialog = page.getByRole("dialog");
    await dialog
      .getByText(/The opening needs a ring 48 mm across; the barrier may be cut to 45 mm/)
      .waitFor();
    expect(await dialog.getByRole("button", { name: /sheet/ }).count()).toBe(0);
  });
});

describe("an opening put into use", () => {
  it("is kept as it was cut, from the reading it was cut for, and judged from then on", async () => {
    const { path, personId } = await fittedPerson(bench, "Hew Castell");
    const page = await bench.visit(path);
    await typeOval(page);
    await page.getByRole("button", { name: "Put this opening in use" }).click();
    await page.getByRole("dialog").getByText("Gap each side 2.0 mm, hole across 32.0 to 35.0 mm.").waitFor();
    await page.getByRole("dialog").getByRole("radio", { name: "By hand" }).check();
    await page.getByRole("button", { name: "Put in use", exact: true }).click();
    await page.getByText("From now on the lists judge this opening.").waitFor();
    const cut = (
      await entriesOf<{ how: string; clearanceMm: number; measuredId: string }>(bench, personId, "cut")
    ).at(-1)!;
    const measured = (await entriesOf(bench, personId, "measured")).at(-1)!;
    expect(cut.body).toMatchObject({ how: "byHand", clearanceMm: 2, measuredId: measured.id });
    const inUse = page.locator(".fit-table tr", { hasText: "Gap each side" }).locator("td").first();
    await expect.poll(() => inUse.textContent()).toBe("2.0 mm");
  });

  it("pre-cut, asks for its size", async () => {
    const { path, personId } = await fittedPerson(bench, "Pia Norell");
    const page = await bench.visit(path);
    await page.getByRole("button", { name: "Put this opening in use" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByRole("radio", { name: "Pre-cut" }).check();
    await dialog.getByRole("button", { name: "Put in use", exact: true }).click();
    await dialog.getByText("Write its size across, 5 to 120 mm.").waitFor();
    await dialog.getByLabel("Hole across").fill("35");
    await dialog.getByRole("button", { name: "Put in use", exact: true }).click();
    await dialog.waitFor({ state: "detached" });
    const cut = (await entriesOf<{ opening: unknown }>(bench, personId, "cut")).at(-1)!;
    expect(cut.body).toMatchObject({ how: "preCut", opening: { guide: { shape: "round", diameterMm: 35 } } });
  });
});

describe("a reading of the record", () => {
  it("is shown by its address, and can be corrected with the reason; the old one stays readable", async () => {
    const { path, personId } = await fittedPerson(bench, "Ruth Ellery");
    const readings = await entriesOf<{ shape: unknown }>(bench, personId, "measured");
    const last = readings.at(-1)!;
    const page = await bench.visit(`${path}?reading=${last.id}`);
    await page.getByText(/On the plate: the reading of .*32\.0 × 30\.0\smm/).waitFor();
    await page.getByRole("button", { name: "Correct this reading" }).click();
    await page.getByText(/Correcting the reading of/).waitFor();
    expect(await page.getByLabel("Length, head to foot").inputValue()).toBe("32");
    await page.getByLabel("Length, head to foot").fill("33");
    await page.getByRole("button", { name: "Save the correction" }).click();
    await page.getByText(/Write why/).waitFor();
    await page.getByLabel("Why is it corrected?").fill("read the wrong ring");
    await page.getByRole("button", { name: "Save the correction" }).click();
    await page.getByText(/On the plate: the reading of .*33\.0 × 30\.0\smm/).waitFor();
    const corrected = (await entriesOf<{ shape: unknown }>(bench, personId, "measured")).at(-1)!;
    expect(corrected).toMatchObject({
      corrects: { id: last.id, as: "replace" },
      reason: "read the wrong ring",
      at: last.at,
      body: { shape: { guide: { shape: "oval", lengthMm: 33, widthMm: 30, tiltDeg: 0 } } },
    });
  });

  it("a correction that was begun is there again after a reload, and can be given up", async () => {
    const { path, personId } = await fittedPerson(bench, "Ada Quarles");
    const page = await bench.visit(path);
    await page.getByRole("button", { name: "Correct this reading" }).click();
    await page.getByLabel("Width, side to side").fill("29");
    await page.getByLabel("Why is it corrected?").fill("read the wrong ring");
    await page.reload();
    await page.getByRole("button", { name: "Correct this reading" }).click();
    expect(await page.getByLabel("Width, side to side").inputValue()).toBe("29");
    expect(await page.getByLabel("Why is it corrected?").inputValue()).toBe("read the wrong ring");
    await page.getByRole("button", { name: "Leave it as it was" }).click();
    await page.getByRole("button", { name: "Correct this reading" }).click();
    expect(await page.getByLabel("Width, side to side").inputValue()).toBe("30");
    expect(await entriesOf(bench, personId, "measured")).toHaveLength(5);
  });

  it("an older one is shown, but no sheet is cut from it", async () => {
    const { path, personId } = await fittedPerson(bench, "Otto Brill");
    const [first] = await entriesOf(bench, personId, "measured");
    const page = await bench.visit(`${path}?reading=${first!.id}`);
    await page.getByText("sheets are cut from the newest one only").waitFor();
    expect(await page.getByRole("button", { name: "Print cutting sheet" }).count()).toBe(0);
    await page.getByRole("button", { name: "Measure again" }).click();
    await page.getByRole("button", { name: "Print cutting sheet" }).waitFor();
  });
});
