import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type OpenBench, openBench } from "./bench.ts";
import { newPerson } from "./people.ts";

let bench: OpenBench;
beforeAll(async () => {
  bench = await openBench();
  const crowd = Array.from({ length: 90 }, (_, index) =>
    newPerson(`Crowd ${String(index).padStart(3, "0")}`),
  );
  await bench.append(crowd.flatMap(({ drafts }) => drafts));
  await bench.append([newPerson("Łucja Wrzóska"), newPerson("Zoe Last")].flatMap(({ drafts }) => drafts));
});
afterAll(() => bench.close());

describe("the list of people", () => {
  it("finds a name however it is typed, announces how many, and keeps the cursor in the field", async () => {
    const page = await bench.visit("/people");
    const finder = page.getByRole("searchbox");
    await finder.pressSequentially("lucja wrzo", { delay: 20 });
    await page.getByRole("status").getByText("1 person with “lucja wrzo”").waitFor();
    expect(await page.getByRole("link", { name: "Łucja Wrzóska" }).isVisible()).toBe(true);
    expect(await finder.evaluate((element) => element === document.activeElement)).toBe(true);
    expect(new URL(page.url()).searchParams.get("find")).toBe("lucja wrzo");
  });

  it("says so when nobody is found", async () => {
    const page = await bench.visit("/people?find=qqq");
    await page.getByText("Nobody’s name or record number holds “qqq”").waitFor();
  });

  it("is walked with the arrow keys and opened with Enter", async () => {
    const page = await bench.visit("/people?find=crowd%2000");
    await page.getByRole("link", { name: "Crowd 000" }).waitFor();
    await page.getByRole("searchbox").focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Crowd 001");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    expect(await page.evaluate(() => document.activeElement?.getAttribute("type"))).toBe("search");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: "Crowd 000" }).waitFor();
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("H1");
  });

  it("comes in pages, in the order of names", async () => {
    const page = await bench.visit("/people");
    await page.getByText("First 50 people, by name").waitFor();
    expect(await page.getByRole("link", { name: "Zoe Last" }).count()).toBe(0);
    await page.getByRole("button", { name: "Show more" }).click();
    await page.getByText("92 people").waitFor();
    expect(await page.getByRole("link", { name: "Zoe Last" }).isVisible()).toBe(true);
  });
});
