import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Draft, type StoredEntry, sortMs } from "../../src/record/entry/index.ts";
import { type OpenBench, openBench } from "./bench.ts";
import { change, dateAgo, newPerson } from "./people.ts";

let bench: OpenBench;
const edda = newPerson("Edda Farrowby", { day: 27 });
const about = { personId: edda.personId, stomaId: edda.stomaId };

beforeAll(async () => {
  bench = await openBench();
  await bench.append([
    ...edda.drafts,
    reading(25, 41),
    reading(21, 38),
    reading(14, 36),
    reading(1, 29.5),
    cut(14, 36.5),
    fitted(25, "drainable one-piece, flat"),
    change(about, 25),
    change(about, 22),
    change(about, 18.5),
    change(about, 17, "leakPastEdge"),
    change(about, 15, "leakUnderBarrier"),
    fitted(14, "drainable one-piece, convex"),
    change(about, 14),
    change(about, 10.5),
    change(about, 7),
    change(about, 3.5),
  ]);
});
afterAll(() => bench.close());

const path = `/people/${edda.personId}`;

function stomaEntry(kind: string, days: number, body: unknown): Draft {
  const at = { date: dateAgo(days), precision: "day" };
  return { id: uuidv7(), schemaVersion: 1, kind, ...about, at, body } as Draft;
}
function reading(days: number, diameterMm: number): Draft {
  const shape = { guide: { shape: "round", diameterMm } };
  return stomaEntry("measured", days, { method: "guide", shape, stepMm: 3 });
}
function cut(days: number, diameterMm: number): Draft {
  return stomaEntry("cut", days, { opening: { guide: { shape: "round", diameterMm } }, how: "sheet" });
}
function fitted(days: number, name: string): Draft {
  const system = { name, pieces: "one", closure: "drainable", barrier: "flat", opening: "cutToFit" };
  return stomaEntry("fitted", days, { system, plannedIntervalDays: 3.5 });
}
async function entriesOf(kind: string): Promise<StoredEntry[]> {
  const { entries } = await bench.ask<{ entries: StoredEntry[] }>(path);
  return entries.filter((entry) => entry.kind === kind);
}

describe("a person's page", () => {
  it("gives the day of recovery with the date, and what matters with its protocol value", async () => {
    const page = await bench.visit(path);
    await page.getByText(/^Day 27, /).waitFor();
    const matters = page.getByRole("complementary", { name: "What matters" });
    await matters.getByText(/leaves up to 3\.5 mm of skin bare/).waitFor();
    expect(await matters.getByText(/Protocol: 3\.2 mm/).isVisible()).toBe(true);
    expect(await matters.getByText(/Cut the new opening: 33\.5/).isVisible()).toBe(true);
  });

  it("draws the ribbon at its real size and says the same in a table", async () => {
    const page = await bench.visit(path);
    const ribbon = page.getByRole("img", { name: /^Stoma size, openings, changes and leaks/ });
    await ribbon.waitFor();
    expect(await ribbon.getAttribute("aria-label")).toContain("4 readings");
    const wide = await ribbon.evaluate((svg) => svg.getBoundingClientRect().width);
    expect(wide).toBe(Number(await ribbon.getAttribute("width")));
    await page.setViewportSize({ width: 390, height: 844 });
    await expect.poll(() => ribbon.evaluate((svg) => svg.getBoundingClientRect().width)).toBeLessThan(390);
    await page.getByText("The same as a table").first().click();
    expect(await page.getByRole("cell", { name: "Opening put into use" }).isVisible()).toBe(true);
  });

  it("compares two systems with the caution that the data are few", async () => {
    const page = await bench.visit(path);
    const leakFree = page.locator("section", { has: page.getByRole("heading", { name: "Leak-free days" }) });
    await leakFree.getByText(/Within .* the system in use gives .* more leak-free/).waitFor();
    expect(await leakFree.getByText(/log-rank test/).isVisible()).toBe(true);
    expect(await leakFree.getByText(/worn at different times/).isVisible()).toBe(true);
    expect(await leakFree.getByText("Changes are now planned every 3.5 days").isVisible()).toBe(true);
  });

  it("takes a usual change in two presses", async () => {
    const page = await bench.visit(path);
    await page.getByRole("button", { name: "Record a change" }).click();
    await page.getByRole("dialog").waitFor();
    await page.keyboard.press("Enter");
    await page.getByText(/^Saved: record a change/).waitFor();
    const last = (await entriesOf("changed")).at(-1)!;
    expect(last.body).toEqual({ what: "barrier", why: "planned" });
    expect(Date.now() - sortMs(last.at)).toBeLessThan(120_000);
  });

  it("takes a leak with its clock hours by keyboard", async () => {
    const page = await bench.visit(`${path}?write=changed`);
    await page.getByRole("radio", { name: "Leak past the edge" }).check();
    await page.getByRole("button", { name: "12 o’clock", exact: true }).focus();
    for (const key of ["ArrowRight", "ArrowRight", "ArrowRight", "Space", "ArrowRight", "Space"]) {
      await page.keyboard.press(key);
    }
    await page.getByText("at 3 and 4 o’clock").waitFor();
    await page.getByRole("button", { name: "Save the change" }).click();
    await page.getByText(/^Saved: record a change/).waitFor();
    expect((await entriesOf("changed")).at(-1)?.body).toMatchObject({
      why: "leakPastEdge",
      leakHours: [3, 4],
    });
  });

  it("keeps a note through a failed save, going away and loading again, and saves it once", async () => {
    const page = await bench.visit(`${path}?write=noted`);
    await page.getByLabel("Note", { exact: true }).fill("Sleeping through. Asks about swimming.");
    await page.route("**/api/entries", (route) => route.abort());
    await page.getByRole("button", { name: "Save the note" }).click();
    await page.getByRole("alert").getByText("The bench does not answer").waitFor();
    await page.getByText("1 thing typed here is kept in this tab").waitFor();
    await page.unroute("**/api/entries");

    await page.goto(`${bench.url}/protocol`);
    await page.goto(`${bench.url}${path}?write=noted`);
    await page.getByText("Kept from before").waitFor();
    expect(await page.getByLabel("Note", { exact: true }).inputValue()).toContain("swimming");
    await page.getByRole("button", { name: "Save the note" }).click();
    await page.getByText(/^Saved: write a note/).waitFor();
    expect(await entriesOf("noted")).toHaveLength(1);
    await page.goto(`${bench.url}${path}?write=noted`);
    expect(await page.getByLabel("Note", { exact: true }).inputValue()).toBe("");
  });

  it("saves once when the answer to the first try was lost", async () => {
    const page = await bench.visit(`${path}?write=event`);
    await page.getByLabel("What happened").selectOption("medicine");
    await page.route("**/api/entries", async (route) => {
      await route.fetch();
      await route.abort();
    });
    await page.getByRole("button", { name: "Save the event" }).click();
    await page.getByRole("alert").waitFor();
    await page.unroute("**/api/entries");
    await page.getByRole("button", { name: "Save the event" }).click();
    await page.getByText(/^Saved: record an event/).waitFor();
    expect(await entriesOf("event")).toHaveLength(1);
  });
});

describe("a correction", () => {
  it("needs a reason, and keeps the earlier value readable with who, when and why", async () => {
    const [, , third] = await entriesOf("measured");
    const page = await bench.visit(`${path}?write=correct&entry=${third!.id}`);
    await page.getByLabel("Across").fill("34,5");
    await page.getByRole("button", { name: "Save the correction" }).click();
    await page.getByText("Write why it is corrected.").waitFor();
    await page.getByLabel("Reason").fill("wrong ring read");
    await page.getByRole("button", { name: "Save the correction" }).click();
    await page.getByText("Corrected: measurement.").waitFor();

    const footnotes = page.getByRole("list", { name: "Corrections" });
    await footnotes.getByText("“wrong ring read”").waitFor();
    expect(await footnotes.locator("del").first().textContent()).toMatch(/36\.0\smm/);
    expect(await footnotes.textContent()).toMatch(/is 34\.5\smm/);
    expect(
      await page
        .locator(".entry del")
        .getByText(/36\.0\smm/)
        .isVisible(),
    ).toBe(true);
    expect(await page.getByRole("link", { name: "footnote a" }).first().isVisible()).toBe(true);
  });

  it("that came second shows the other one and keeps what was typed", async () => {
    const [first] = await entriesOf("measured");
    const page = await bench.visit(`${path}?write=correct&entry=${first!.id}`);
    await page.getByLabel("Across").fill("40");
    await page.getByLabel("Reason").fill("read from the wrong side");
    await bench.append([
      {
        ...stomaEntry("measured", 25, { ...(first!.body as object), heightMm: 15 }),
        corrects: { id: first!.id, as: "replace" },
        reason: "height was missing",
      } as Draft,
    ]);
    await page.getByRole("button", { name: "Save the correction" }).click();
    const alert = page.getByRole("alert");
    await alert.getByText("“height was missing”").waitFor();
    expect(await page.getByLabel("Across").inputValue()).toBe("40");
    await alert.getByRole("button", { name: "Correct theirs with mine" }).click();
    await page.getByRole("button", { name: "Save the correction" }).click();
    await page.getByText("Corrected: measurement.").waitFor();
    const chain = (await entriesOf("measured")).filter(({ corrects }) => corrects);
    expect(chain.at(-1)?.corrects?.id).toBe(chain.at(-2)?.id);
  });

  it("may take an entry back: it stays readable and counts nowhere", async () => {
    const leak = (await entriesOf("changed")).find(
      ({ body }) => (body as { why: string }).why === "leakUnderBarrier",
    );
    const page = await bench.visit(`${path}?write=takeBack&entry=${leak!.id}`);
    await page.getByLabel("Reason").fill("was another person");
    await page.getByRole("button", { name: "Take it back" }).click();
    await page.getByText("Taken back: change.").waitFor();
    const line = page.locator(`[id="entry-${leak!.id}"]`);
    expect(await line.locator("del").isVisible()).toBe(true);
    expect(await line.getByRole("button", { name: /Put back/ }).isVisible()).toBe(true);
  });
});

describe("an address without a person", () => {
  it("says so and leads back", async () => {
    const page = await bench.visit(`/people/${uuidv7()}`);
    await page.getByText("No person with this id is on record, or not any more.").waitFor();
    await page.getByRole("link", { name: "Look among all people" }).click();
    await page.getByRole("heading", { level: 1, name: "People" }).waitFor();
  });
});
