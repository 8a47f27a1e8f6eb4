import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openSqlite, recordFile } from "../store/index.ts";
import { DemoRefused, demoEntries, openOrMakeDemo, removeDemo } from "./index.ts";

const zone = "Europe/London";
const monday = Date.parse("2026-11-23T09:00:00Z");
const dayMs = 86_400_000;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "demo-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function made(nowMs: number) {
  const { store, ...opened } = await openOrMakeDemo(folder, { nowMs, zone });
  await store.close();
  return opened;
}

/** A record with the same entries and no mark: as far as a folder can tell, real people. */
async function fillWithRealPeople(): Promise<void> {
  const store = await openSqlite(recordFile(folder));
  await store.append(demoEntries({ today: "2026-11-23", zone }).slice(0, 40));
  await store.close();
}

describe("the demo folder", () => {
  it("is made once, kept on a later day, left alone while a bench has it open, removed, and made anew", async () => {
    expect(await made(monday)).toEqual({ madeOn: "2026-11-23", isNew: true });

    const { store, isNew, madeOn } = await openOrMakeDemo(folder, { nowMs: monday + dayMs, zone });
    expect({ isNew, madeOn }).toEqual({ isNew: false, madeOn: "2026-11-23" });
    await expect(removeDemo(folder)).rejects.toThrow("open in another process");
    expect(await store.clinicIds()).toHaveLength(1);
    await store.close();

    await removeDemo(folder);
    expect(existsSync(recordFile(folder))).toBe(false);
    await removeDemo(folder);

    // As a making that was cut short leaves it: the mark comes before the people.
    const begun = await openSqlite(recordFile(folder));
    await begun.setMark("demo", "2026-11-20");
    await begun.close();
    expect(await made(monday + dayMs)).toEqual({ madeOn: "2026-11-24", isNew: true });
  });

  it("is never one that holds a real clinic: neither filled nor removed", async () => {
    await fillWithRealPeople();
    await expect(openOrMakeDemo(folder, { nowMs: monday, zone })).rejects.toThrow(DemoRefused);
    await expect(removeDemo(folder)).rejects.toThrow("does not hold the demo; nothing was deleted");
    expect(existsSync(recordFile(folder))).toBe(true);
  });
});
