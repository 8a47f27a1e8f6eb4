import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type OpenBench, openBench } from "./bench.ts";
import { change, newPerson } from "./people.ts";

let bench: OpenBench;
const edda = newPerson("Edda Farrowby");
const bram = newPerson("Bram Oyelaran");
beforeAll(async () => {
  bench = await openBench();
  await bench.append([...edda.drafts, ...bram.drafts, change(edda, 2)]);
});
afterAll(() => bench.close());

describe("erasing a person on their request", () => {
  it("says first what goes and what stays, and takes a ground and the typed name", async () => {
    const page = await bench.visit(`/people/${edda.personId}`);
    await page.getByRole("link", { name: "Erase this person on their request" }).click();
    await page.getByRole("heading", { level: 1, name: "Erase Edda Farrowby" }).waitFor();
    await page.getByText("All 3 entries about Edda Farrowby").waitFor();
    await page.getByText("One line of who did this, when and on which ground.").waitFor();
    await page.getByRole("button", { name: "Erase Edda Farrowby for good" }).click();
    await page.getByText("Choose the ground.").waitFor();
    await page.getByText("Type “Edda Farrowby”.").waitFor();
    await page.getByRole("radio", { name: "The person withdrew the consent" }).check();
    await page.getByLabel("Type the name of the person").fill("Bram Oyelaran");
    await page.getByRole("button", { name: "Erase Edda Farrowby for good" }).click();
    await page.getByText("Type “Edda Farrowby”.").waitFor();
    await bench.ask(`/people/${edda.personId}`);
  });

  it("takes the person out of every list, and what was being typed about them", async () => {
    const page = await bench.visit(`/people/${edda.personId}?write=noted`);
    await page.getByRole("textbox", { name: "Note" }).fill("half a sentence about Edda");
    await page.getByRole("button", { name: "Not now" }).click();
    await page.getByRole("link", { name: "Erase this person on their request" }).click();
    await page.getByRole("radio", { name: "The person withdrew the consent" }).check();
    await page.getByLabel("Type the name of the person").fill("edda farrowby");
    await page.getByRole("button", { name: "Erase Edda Farrowby for good" }).click();
    await page.getByRole("heading", { level: 1, name: "Erased" }).waitFor();
    await page.getByText("3 entries, 0 photographs and 0 accounts went.").waitFor();
    expect(await page.evaluate(() => JSON.stringify({ ...sessionStorage }))).not.toContain(edda.personId);

    await page.getByRole("link", { name: "All people" }).click();
    await page.getByRole("link", { name: "Bram Oyelaran" }).waitFor();
    expect(await page.getByRole("link", { name: "Edda Farrowby" }).count()).toBe(0);
    await page.goto(`${bench.url}/people/${edda.personId}`);
    await page.getByRole("heading", { level: 1, name: "Nobody at this address" }).waitFor();
  });

  it("leaves a line without a name", async () => {
    const page = await bench.visit("/clinic/audit");
    await page
      .getByText(
        /^Ines Varga erased no\. [0-9a-f]{8}: the person withdrew the consent on which the record rests\.$/,
      )
      .waitFor();
    expect(await page.locator("main").textContent()).not.toContain("Edda");
  });

  it("drops what another page still had in writing about somebody erased meanwhile, and says why", async () => {
    const { personId } = bram;
    const page = await bench.visit(`/people/${personId}?write=noted`);
    await page.getByRole("textbox", { name: "Note" }).fill("too late");
    await bench.ask(`/people/${personId}/erase`, { ground: "objected", typedName: "Bram Oyelaran" });
    await page.getByRole("button", { name: "Save the note" }).click();
    await page.getByRole("heading", { level: 1, name: "Nobody at this address" }).waitFor();
    expect(await page.evaluate(() => JSON.stringify({ ...sessionStorage }))).not.toContain(personId);
  });
});
