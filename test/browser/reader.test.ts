import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Member, type OpenBench, openBench } from "./bench.ts";
import { fittedPerson } from "./fittingPeople.ts";
import { change } from "./people.ts";

let bench: OpenBench;
let reader: Member;
let nurse: Member;
let person: { personId: string; stomaId: string; path: string };
beforeAll(async () => {
  bench = await openBench();
  person = await fittedPerson(bench, "Edda Farrowby");
  await bench.append([change(person, 3)]);
  reader = await bench.join("reader", "Tamsin Holloway");
  nurse = await bench.join("nurse", "Hal Verity");
});
afterAll(() => bench.close());

/** Buttons and links by which something would be written. */
const writing =
  /record|write|correct|take back|put back|add|save|print|import|set |change|erase|put this|note/i;

async function controls(page: Page): Promise<string[]> {
  const names = await page
    .locator("main")
    .locator("button, a")
    .evaluateAll((elements) =>
      elements.map((element) => element.getAttribute("aria-label") ?? element.textContent ?? ""),
    );
  return names.filter((name) => writing.test(name));
}

/** Each page with what is on it when it is there, and controls that only show or take out. */
const pages: { name: string; path: () => string; ready: string; reads?: RegExp }[] = [
  { name: "Today", path: () => "/", ready: ".today-line, .today-rest" },
  { name: "People", path: () => "/people", ready: ".people-line" },
  {
    name: "a person",
    path: () => `/people/${person.personId}`,
    ready: ".history-day",
    reads: /^(Take out the log of changes|Every change as a table|.*as a table)/,
  },
  { name: "the fitting", path: () => person.path, ready: ".fit-plate" },
  { name: "the protocol", path: () => "/protocol", ready: ".protocol-value" },
];

describe.each(pages)("a reader on $name", ({ path, ready, reads }) => {
  it("sees it all and finds nothing to write with", async () => {
    const page = await bench.visit(path(), { as: reader });
    await page.locator(ready).first().waitFor();
    const found = (await controls(page)).filter((name) => !reads?.test(name));
    expect(found).toEqual([]);
    await page.close();
  });
});

describe("a reader at an address that writes", () => {
  it.each([() => "/people/new", () => `/people/${person.personId}/import`])("is told so", async (path) => {
    const page = await bench.visit(path(), { as: reader });
    await page.getByText("Your account reads and does not write.").waitFor();
    expect(await page.getByRole("textbox").count()).toBe(0);
    await page.close();
  });

  it.each(["changed", "noted", "person"])("sees the person and no form for %s", async (write) => {
    const page = await bench.visit(`/people/${person.personId}?write=${write}`, { as: reader });
    await page.locator(".history-day").first().waitFor();
    expect(await page.getByRole("dialog").count()).toBe(0);
    await page.close();
  });

  it("writes no note with N, and no key says so", async () => {
    const page = await bench.visit("/", { as: reader });
    await page.locator(".today-line, .today-rest").first().waitFor();
    await page.keyboard.press("j");
    await page.keyboard.press("n");
    await page.keyboard.press("?");
    await page.getByRole("dialog", { name: "Keys" }).waitFor();
    expect(await page.getByText("Write a note about the person").count()).toBe(0);
    expect(new URL(page.url()).pathname).toBe("/");
  });
});

describe("pages of the lead’s", () => {
  it.each(["/clinic/colleagues", "/clinic/audit", "erase"])(
    "%s is not for others, and asks the bench for nothing",
    async (path) => {
      for (const as of [reader, nurse]) {
        const at = path === "erase" ? `/people/${person.personId}/erase` : path;
        const page = await bench.visit("/clinic", { as });
        const asked: string[] = [];
        page.on("request", (request) => asked.push(new URL(request.url()).pathname));
        await page.goto(bench.url + at);
        await page.getByText("This page is the lead’s.").waitFor();
        expect(asked.filter((one) => /\/api\/(accounts|audit|people)/.test(one))).toEqual([]);
        await page.close();
      }
    },
  );

  it("are not linked for a nurse, who writes about people and reads the protocol", async () => {
    const page = await bench.visit("/protocol", { as: nurse });
    await page.getByText("The lead of the service sets them.").waitFor();
    expect(await page.getByRole("button", { name: /^Change/ }).count()).toBe(0);
    await page.goto(`${bench.url}/people/${person.personId}`);
    await page.getByRole("button", { name: "Write a note" }).waitFor();
    expect(await page.getByRole("link", { name: /Erase|Who saw/ }).count()).toBe(0);
  });
});
