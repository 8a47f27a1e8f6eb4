import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from "playwright-core";
import type { Role } from "../../src/record/accounts/account.ts";
import type { Draft, StoredEntry } from "../../src/record/entry/index.ts";
import { Asker } from "./asker.ts";
import { chromiumPath } from "./chromium.mjs";
import { passTime } from "./passTime.ts";

/** The built server with a folder of its own, and a browser to look at it. */
export interface OpenBench {
  url: string;
  browser: Browser;
  /** Where the first account is made; spent where the bench was set up already. */
  setUpLinks: string[];
  /** Opens an address in a new tab; what the pages complain of (errors, the content policy) fails in `close`. */
  visit(path: string, look?: Look): Promise<Page>;
  /** A browser of another make in which the lead is signed in. */
  context(options: BrowserContextOptions): Promise<BrowserContext>;
  /** Asks the interface of the bench past the pages, as the lead. */
  ask<T>(path: string, body?: unknown, method?: string): Promise<T>;
  append(drafts: Draft[]): Promise<StoredEntry[]>;
  /** Makes an account and signs it in. */
  join(role: Role, displayName: string): Promise<Member>;
  /** Minutes go by for somebody who is signed in. */
  passTime(minutes: number, who: Pick<Member, "accountId">): void;
  close(): Promise<void>;
}

/** Somebody with an account at the bench. */
export interface Member {
  accountId: string;
  displayName: string;
  signInName: string;
  password: string;
  asker: Asker;
}

export interface Look {
  width?: number;
  colorScheme?: "light" | "dark";
  contrast?: "more" | "no-preference";
  /** Who looks: the lead unless another is named; "nobody" is not signed in and shares nothing with anyone. */
  as?: Member | "lead" | "nobody";
}

const dist = fileURLToPath(new URL("../../dist", import.meta.url));

const quietly = [
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Details of an invented clinic. */
export const clinicDetails = {
  name: "Thornmere Stoma Clinic",
  timeZone: "Europe/London",
  nurse: { name: "Ines Varga" },
  nursePhone: "555-0100",
  paper: "A4",
} as const;

/** The lead of that clinic. */
export const leadAccount = {
  displayName: "Ines Varga",
  signInName: "ines",
  password: "plum harbour lantern",
} as const;

const memberPassword = "copper kettle meadow";

/**
 * Starts the bench on a free port with an invented clinic and its lead; `demo` fills its folder with the demo's
 * people, `setUp: false` leaves it as it is before anybody came.
 */
export async function openBench({
  demo = false,
  setUp = true,
  browserArgs = [],
}: {
  demo?: boolean;
  setUp?: boolean;
  /** What else Chromium is started with. */
  browserArgs?: readonly string[];
} = {}): Promise<OpenBench> {
  if (!existsSync(join(dist, "web", "index.html"))) throw new Error("Nothing is built yet: npm run build");
  const dataDir = mkdtempSync(join(tmpdir(), "roundel-bench-"));
  if (demo) await makeDemo(dataDir);
  const { serve } = (await import(
    join(dist, "server", "index.js")
  )) as typeof import("../../src/server/index.ts");
  const served = await serve({
    dataDir,
    webDir: join(dist, "web"),
    port: 0,
    stopOnSignals: false,
    demoSignIn: demo,
  });
  const { url, setUpLinks } = served;
  const lead = new Asker(url);
  if (demo) await lead.ask("/session");
  else if (setUp) await setUpClinic(lead, setUpLinks[0]!);
  const browser = await chromium.launch({
    executablePath: chromiumPath(),
    args: [...quietly, ...browserArgs],
  });
  const complaints: string[] = [];
  const contextFor = contextsOf(browser, lead);

  return {
    url,
    browser,
    setUpLinks,
    context: (options) => contextOf(browser, lead, options),
    ask: (path, body, method) => lead.ask(path, body, method),
    append: async (entries) => (await lead.ask<{ entries: StoredEntry[] }>("/entries", { entries })).entries,
    join: (role, displayName) => joined(url, lead, role, displayName),
    passTime: (minutes, { accountId }) => passTime(dataDir, accountId, minutes),
    async visit(path, look = {}) {
      const page = await (await contextFor(look)).newPage();
      page.on("pageerror", (error) => complaints.push(`${page.url()}: ${error.message}`));
      page.on("console", (message) => {
        if (/Content Security Policy|React/.test(message.text())) complaints.push(message.text());
      });
      if (look.as === "nobody") page.on("close", () => closeIfLeft(page.context()));
      await page.goto(url + path);
      return page;
    },
    async close() {
      await browser.close();
      await served.close();
      rmSync(dataDir, { recursive: true, force: true });
      if (complaints.length > 0) throw new Error(`The pages complained:\n${complaints.join("\n")}`);
    },
  };
}

/** Pages that look alike to the same person share what they have loaded, as tabs of one browser do. */
function contextsOf(browser: Browser, lead: Asker): (look: Look) => Promise<BrowserContext> {
  const contexts = new Map<string, Promise<BrowserContext>>();
  const open = async ({ width = 1280, colorScheme = "light", contrast = "no-preference", as }: Look) => {
    const asker = typeof as === "object" ? as.asker : as === "nobody" ? null : lead;
    const viewport = { width, height: width < 700 ? 844 : 900 };
    return contextOf(browser, asker, { viewport, colorScheme, contrast });
  };
  return (look) => {
    if (look.as === "nobody") return open(look);
    const who = typeof look.as === "object" ? look.as.accountId : "lead";
    const key = [look.width, look.colorScheme, look.contrast, who].join(" ");
    const context = contexts.get(key) ?? open(look);
    contexts.set(key, context);
    return context;
  };
}

async function contextOf(
  browser: Browser,
  asker: Asker | null,
  options: BrowserContextOptions,
): Promise<BrowserContext> {
  const context = await browser.newContext({ locale: "en-GB", timezoneId: "Europe/London", ...options });
  if (asker) await context.addCookies(asker.forBrowser());
  return context;
}

/** A browser of one's own ends with its last tab. */
function closeIfLeft(context: BrowserContext): void {
  // The browser may be closing already, and the context with it.
  if (context.pages().length === 0) context.close().catch(() => {});
}

async function setUpClinic(lead: Asker, link: string): Promise<void> {
  await lead.ask("/set-up", { token: tokenOf(link), details: clinicDetails, account: leadAccount });
}

/** As a colleague joins: by a link that the lead makes. */
async function joined(url: string, lead: Asker, role: Role, displayName: string): Promise<Member> {
  const { link } = await lead.ask<{ link: string }>("/accounts/links", { role, displayName });
  const asker = new Asker(url);
  const signInName = displayName.toLowerCase().replace(/\W+/g, ".");
  const { account } = await asker.ask<{ account: { accountId: string } }>("/join", {
    token: tokenOf(link),
    signInName,
    password: memberPassword,
  });
  return { accountId: account.accountId, displayName, signInName, password: memberPassword, asker };
}

export function tokenOf(link: string): string {
  return link.split("#")[1]!;
}

async function makeDemo(dataDir: string): Promise<void> {
  const { openOrMakeDemo } = (await import(
    join(dist, "record", "demo", "index.js")
  )) as typeof import("../../src/record/demo/index.ts");
  const { store } = await openOrMakeDemo(dataDir, { nowMs: Date.now(), zone: "Europe/London" });
  await store.close();
}
