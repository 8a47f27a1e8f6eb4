import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import type { Draft, StoredEntry } from "../../src/record/entry/index.ts";
import { chromiumPath } from "./chromium.mjs";

/** The built server with a folder of its own, and a browser to look at it. */
export interface OpenBench {
  url: string;
  browser: Browser;
  /** Opens an address in a new tab; what the pages complain of (errors, the content policy) fails in `close`. */
  visit(path: string, look?: Look): Promise<Page>;
  /** Asks the interface of the bench, past the pages. */
  ask<T>(path: string, body?: unknown): Promise<T>;
  append(drafts: Draft[]): Promise<StoredEntry[]>;
  close(): Promise<void>;
}

export interface Look {
  width?: number;
  colorScheme?: "light" | "dark";
  contrast?: "more" | "no-preference";
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

/** Starts the bench on a free port; `demo` fills its folder with the invented clinic. */
export async function openBench({ demo = false } = {}): Promise<OpenBench> {
  if (!existsSync(join(dist, "web", "index.html"))) throw new Error("Nothing is built yet: npm run build");
  const dataDir = mkdtempSync(join(tmpdir(), "roundel-bench-"));
  if (demo) await makeDemo(dataDir);
  const { serve } = (await import(
    join(dist, "server", "index.js")
  )) as typeof import("../../src/server/index.ts");
  const served = await serve({ dataDir, webDir: join(dist, "web"), port: 0, stopOnSignals: false });
  const browser = await chromium.launch({ executablePath: chromiumPath(), args: quietly });
  const contexts = new Map<string, Promise<BrowserContext>>();
  const complaints: string[] = [];

  /** Pages that look alike share what they have loaded, as tabs of one browser do. */
  const contextFor = ({ width = 1280, colorScheme = "light", contrast = "no-preference" }: Look) => {
    const key = `${width} ${colorScheme} ${contrast}`;
    const viewport = { width, height: width < 700 ? 844 : 900 };
    const context =
      contexts.get(key) ??
      browser.newContext({
        viewport,
        colorScheme,
        contrast,
        locale: "en-GB",
        timezoneId: "Europe/London",
      });
    contexts.set(key, context);
    return context;
  };

  const visit = async (path: string, look: Look = {}) => {
    const page = await (await contextFor(look)).newPage();
    page.on("pageerror", (error) => complaints.push(`${page.url()}: ${error.message}`));
    page.on("console", (message) => {
      if (/Content Security Policy|React/.test(message.text())) complaints.push(message.text());
    });
    await page.goto(served.url + path);
    return page;
  };

  const ask = async <T>(path: string, body?: unknown) => {
    const response = await fetch(`${served.url}/api${path}`, {
      method: body === undefined ? "GET" : "POST",
      headers: body === undefined ? {} : { "content-type": "application/json", origin: served.url },
      body: body === undefined ? undefined : JSON.stringify(body),
    });
    const answer = (await response.json()) as T;
    if (!response.ok) throw new Error(`${path}: ${response.status} ${JSON.stringify(answer)}`);
    return answer;
  };

  return {
    url: served.url,
    browser,
    visit,
    ask,
    append: async (entries) => (await ask<{ entries: StoredEntry[] }>("/entries", { entries })).entries,
    close: async () => {
      for (const context of contexts.values()) await (await context).close();
      await browser.close();
      await served.close();
      rmSync(dataDir, { recursive: true, force: true });
      if (complaints.length > 0) throw new Error(`The pages complained:\n${complaints.join("\n")}`);
    },
  };
}

async function makeDemo(dataDir: string): Promise<void> {
  const { openOrMakeDemo } = (await import(
    join(dist, "record", "demo", "index.js")
  )) as typeof import("../../src/record/demo/index.ts");
  const { store } = await openOrMakeDemo(dataDir, { nowMs: Date.now(), zone: "Europe/London" });
  await store.close();
}

/** Details of an invented clinic, for benches that begin empty. */
export const clinicDetails = {
  name: "Thornmere Stoma Clinic",
  timeZone: "Europe/London",
  nurse: { name: "Ines Varga" },
  nursePhone: "555-0100",
  paper: "A4",
} as const;
