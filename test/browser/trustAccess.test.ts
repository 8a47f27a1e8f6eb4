import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe } from "vitest";
import { type Look, leadAccount, type Member, type OpenBench, openBench, tokenOf } from "./bench.ts";
import { isForEverybody } from "./forEverybody.ts";
import { newPerson } from "./people.ts";

let bench: OpenBench;
let nurse: Member;
let links: { join: string; recover: string };
const edda = newPerson("Edda Farrowby");
beforeAll(async () => {
  bench = await openBench();
  nurse = await bench.join("nurse", "Hal Verity");
  await bench.append(edda.drafts);
  const made = (path: string, body: object) => bench.ask<{ link: string }>(path, body);
  const join = await made("/accounts/links", { role: "reader", displayName: "Tamsin Holloway" });
  const recover = await made(`/accounts/${nurse.accountId}/recovery`, {});
  links = { join: `/join#${tokenOf(join.link)}`, recover: `/recover#${tokenOf(recover.link)}` };
});
afterAll(() => bench.close());

const pages: {
  name: string;
  path: () => string;
  as?: Look["as"];
  ready: string;
  act?: (page: Page) => Promise<void>;
}[] = [
  { name: "the sign-in", path: () => "/people", as: "nobody", ready: "form" },
  { name: "a wrong password", path: () => "/", as: "nobody", ready: "form", act: wrongPassword },
  { name: "joining", path: () => links.join, as: "nobody", ready: "form" },
  { name: "a new password by a link", path: () => links.recover, as: "nobody", ready: "form" },
  { name: "a link that is spent", path: () => "/join#spent", as: "nobody", ready: "h1" },
  { name: "my account", path: () => "/account", ready: ".account-list li" },
  { name: "colleagues", path: () => "/clinic/colleagues", ready: ".colleague" },
  {
    name: "adding a colleague",
    path: () => "/clinic/colleagues",
    ready: ".colleague",
    act: (page) => page.getByRole("button", { name: "Add a colleague" }).click(),
  },
  { name: "who saw and changed what", path: () => "/clinic/audit", ready: ".audit-line" },
  { name: "erasing", path: () => `/people/${edda.personId}/erase`, ready: "form" },
  { name: "a session that ended", path: () => "/clinic", ready: "form", act: endedSession },
  { name: "confirming", path: () => "/clinic", ready: "form", act: asksToConfirm },
];

async function wrongPassword(page: Page): Promise<void> {
  await page.route("**/api/sign-in", (route) =>
    route.fulfill({
      status: 429,
      json: { error: { code: "waitBeforeSignIn", sentence: "", waitSeconds: 250 } },
    }),
  );
  await page.getByLabel("Name", { exact: true }).fill(leadAccount.signInName);
  await page.getByRole("textbox", { name: "Password" }).fill("wrong");
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  await page.getByText("Too many tries.").first().waitFor();
}

/** The bench says so to this page alone, so that the others go on. */
async function endedSession(page: Page): Promise<void> {
  await refuseExport(page, "signInFirst");
  await page.getByRole("dialog", { name: "Sign in again" }).waitFor();
}

async function asksToConfirm(page: Page): Promise<void> {
  await refuseExport(page, "confirmItIsYou");
  await page.getByRole("dialog", { name: "Confirm that it is you" }).waitFor();
}

async function refuseExport(page: Page, code: string): Promise<void> {
  await page.route("**/api/export.jsonl", (route) =>
    route.fulfill({ status: 401, json: { error: { code, sentence: "" } } }),
  );
  await page.getByRole("button", { name: "Take out the whole record" }).click();
}

describe.each(pages)("$name", (one) => {
  isForEverybody(async (look) => {
    const page = await bench.visit(one.path(), { ...look, as: one.as });
    await page.locator(one.ready).first().waitFor();
    await one.act?.(page);
    return page;
  });
});
