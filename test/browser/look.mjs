import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { chromiumPath } from "./chromium.mjs";

/**
 * Takes pictures of every page at 1280 and 390 px, light and dark, for somebody to look at:
 *   node test/browser/look.mjs FOLDER [URL OF A DEMO] [PART OF A NAME]
 * Without a URL it serves a demo of its own from what was built (npm run build). A demo signs in by itself.
 */
const [folder, ...rest] = process.argv.slice(2);
if (!folder) {
  console.error("Name the folder for the pictures: node test/browser/look.mjs FOLDER [URL] [PART OF A NAME]");
  process.exit(2);
}
const given = rest.find((one) => one.startsWith("http"));
const only = rest.find((one) => !one.startsWith("http")) ?? "";
mkdirSync(folder, { recursive: true });

const bench = given ? { url: given, close: async () => {} } : await ownDemo();
const cookies = await demoCookies(bench.url);
const browser = await chromium.launch({
  executablePath: chromiumPath(),
  args: ["--no-sandbox", "--disable-gpu"],
});
try {
  const pages = (await pagesOf(bench.url)).filter(({ name }) => name.includes(only));
  for (const width of [1280, 390]) {
    for (const colorScheme of ["light", "dark"]) await picturesOf(pages, { width, colorScheme });
  }
} finally {
  await browser.close();
  await bench.close();
}

async function ownDemo() {
  const dataDir = mkdtempSync(join(tmpdir(), "roundel-look-"));
  const [{ openOrMakeDemo }, { serve }] = await Promise.all([
    import("../../dist/record/demo/index.js"),
    import("../../dist/server/index.js"),
  ]);
  const { store } = await openOrMakeDemo(dataDir, { nowMs: Date.now() });
  await store.close();
  const webDir = new URL("../../dist/web", import.meta.url).pathname;
  const served = await serve({ dataDir, webDir, port: 0, stopOnSignals: false, demoSignIn: true });
  const close = async () => {
    await served.close();
    rmSync(dataDir, { recursive: true, force: true });
  };
  return { url: served.url, close };
}

async function demoCookies(url) {
  const response = await fetch(`${url}/api/session`);
  return response.headers.getSetCookie().map((line) => line.split(";")[0]);
}

/** Every page and dialog, about people of the demo in whom there is most to see. */
async function pagesOf(url) {
  const headers = { cookie: cookies.join("; ") };
  const get = async (path) => (await fetch(`${url}/api${path}`, { headers })).json();
  const [{ lines }, { people }] = await Promise.all([get("/today"), get("/people?limit=200")]);
  const records = await Promise.all(people.map(({ personId }) => get(`/people/${personId}`)));
  const has = (test) => people[records.findIndex(({ entries }) => test(entries))];
  const systems = (entries) =>
    new Set(entries.flatMap(({ kind, body }) => (kind === "fitted" ? body.system.name : [])));
  const stomas = (entries) => new Set(entries.map(({ stomaId }) => stomaId).filter(Boolean));
  const urgent = lines[0].person;
  const compared = has((entries) => systems(entries).size > 1 && stomas(entries).size === 1) ?? urgent;
  const several = has((entries) => stomas(entries).size > 1) ?? urgent;
  const corrected = has((entries) => entries.some(({ corrects }) => corrects?.as === "replace")) ?? urgent;
  const undated =
    has((entries) => entries.every(({ kind, body }) => kind !== "stoma" || !body.surgeryOn)) ?? urgent;
  const of = ({ personId }) => `/people/${personId}`;
  const change = records
    .flatMap(({ entries }) => entries)
    .find(({ kind, body, personId }) => kind === "changed" && body.leakHours && personId);
  return [
    { name: "today", path: "/" },
    { name: "today-keys", path: "/", act: (page) => page.keyboard.press("?") },
    { name: "today-chosen", path: "/", act: (page) => page.keyboard.press("j") },
    { name: "people", path: "/people" },
    { name: "people-none", path: "/people?find=zzzz" },
    { name: "person-add", path: "/people/new" },
    { name: "person", path: of(urgent) },
    { name: "person-compared", path: of(compared) },
    { name: "person-several", path: of(several) },
    { name: "person-corrected", path: of(corrected) },
    { name: "person-undated", path: of(undated) },
    { name: "write-change", path: `${of(urgent)}?write=changed` },
    { name: "write-note", path: `${of(urgent)}?write=noted` },
    { name: "write-system", path: `${of(urgent)}?write=fitted` },
    { name: "correct", path: `/people/${change.personId}?write=correct&entry=${change.id}` },
    { name: "take-back", path: `/people/${change.personId}?write=takeBack&entry=${change.id}` },
    { name: "fitting", path: `${of(urgent)}/stomas/${lines[0].stoma.stomaId}/fitting` },
    { name: "import", path: `${of(urgent)}/import` },
    { name: "import-report", path: `${of(urgent)}/import`, act: dropLog },
    { name: "protocol", path: "/protocol" },
    { name: "protocol-set", path: "/protocol", act: (page) => page.locator("main button").nth(2).click() },
    { name: "clinic", path: "/clinic" },
    { name: "account", path: "/account" },
    { name: "colleagues", path: "/clinic/colleagues" },
    { name: "colleague-add", path: "/clinic/colleagues", act: (page) => press(page, "Add a colleague") },
    { name: "audit", path: "/clinic/audit" },
    { name: "audit-person", path: `/clinic/audit?person=${urgent.personId}` },
    { name: "erase", path: `${of(urgent)}/erase` },
    { name: "confirm", path: "/clinic", act: (page) => takeOutRefused(page, "confirmItIsYou") },
    { name: "sign-in-again", path: "/clinic", act: (page) => takeOutRefused(page, "signInFirst") },
    { name: "sign-in", path: "/", act: (page) => press(page, "Sign out") },
    { name: "sign-in-wait", path: "/", act: waitToSignIn },
    { name: "set-up", path: "/set-up#look", act: linkFor({ clinicName: null }) },
    { name: "set-up-no-link", path: "/set-up" },
    {
      name: "join",
      path: "/join#look",
      act: linkFor({ clinicName: "Thornmere Stoma Clinic", displayName: "Tamsin Holloway", role: "nurse" }),
    },
    { name: "nowhere", path: "/nowhere" },
  ].map((page) => ({ url: `${url}${page.path}`, ...page }));
}

async function press(page, name) {
  await page.getByRole("button", { name, exact: true }).first().click();
}

/** Has the bench say to this page alone that somebody must sign in or confirm first. */
async function takeOutRefused(page, code) {
  await page.route("**/api/export.jsonl", (route) =>
    route.fulfill({ status: 401, json: { error: { code, sentence: "" } } }),
  );
  await press(page, "Take out the whole record");
}

async function waitToSignIn(page) {
  await press(page, "Sign out");
  await page.route("**/api/sign-in", (route) =>
    route.fulfill({
      status: 429,
      json: { error: { code: "waitBeforeSignIn", sentence: "", waitSeconds: 250 } },
    }),
  );
  await page.getByLabel("Name", { exact: true }).fill("ines");
  await page.getByRole("textbox", { name: "Password" }).fill("wrong");
  await press(page, "Sign in");
}

/** Shows a link's page as if the link were good. */
function linkFor(about) {
  return async (page) => {
    await page.route("**/look", (route) =>
      route.fulfill({ json: { signInName: null, expiresMs: Date.now() + 86_400_000, ...about } }),
    );
    await page.goto("about:blank");
    await page.goBack();
    await page.evaluate(() => location.replace(`${location.pathname}#look`));
  };
}

async function dropLog(page) {
  const ago = (days) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);
  const lines = [
    "date;time;what;why;leak hours;note",
    `${ago(9)};07:41;barrier;planned;;`,
    `${ago(7)};22:10;barrier;leak past the edge;3 4;after supper`,
    `${ago(6)};25:10;barrier;planned;;`,
    `${ago(4)};08:00;barier;planned;;`,
    `${ago(3)};;pouch only;planned;;`,
  ];
  const file = { name: "log.csv", mimeType: "text/csv", buffer: Buffer.from(lines.join("\n")) };
  await page.setInputFiles("input[type=file]", file);
  await page.waitForSelector(".import-report");
}

async function picturesOf(pages, { width, colorScheme }) {
  for (const { name, url, act } of pages) {
    // One of its own for each: signing out in one would sign out in all.
    const context = await browser.newContext({
      viewport: { width, height: width === 390 ? 844 : 900 },
      colorScheme,
    });
    const page = await context.newPage();
    page.on("pageerror", (error) => console.error(`${name}: ${error.message}`));
    page.on(
      "console",
      (message) => message.type() === "error" && console.error(`${name}: ${message.text()}`),
    );
    await page.goto(url, { waitUntil: "networkidle" });
    await act?.(page);
    await page.waitForTimeout(400);
    await page.screenshot({
      path: join(folder, `${name}-${width}-${colorScheme}.png`),
      fullPage: (await page.locator("dialog").count()) === 0,
    });
    await context.close();
  }
}
