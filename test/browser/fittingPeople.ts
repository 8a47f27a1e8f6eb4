import type { Page } from "playwright-core";
import { v7 as uuidv7 } from "uuid";
import type { Draft, StoredEntry } from "../../src/record/entry/index.ts";
import type { OpenBench } from "./bench.ts";
import { dateAgo, newPerson } from "./people.ts";

/** An invented person of day 27 with five guide readings, an opening in use and a convex system. */
export async function fittedPerson(bench: OpenBench, name: string) {
  const person = newPerson(name, { day: 27 });
  const about = { personId: person.personId, stomaId: person.stomaId };
  const entry = (kind: string, days: number, body: unknown) =>
    ({
      id: uuidv7(),
      schemaVersion: 1,
      kind,
      ...about,
      at: { date: dateAgo(days), precision: "day" },
      body,
    }) as Draft;
  const reading = (days: number, lengthMm: number, widthMm: number) =>
    entry("measured", days, {
      method: "guide",
      stepMm: 1,
      shape: { guide: { shape: "oval", lengthMm, widthMm, tiltDeg: 0 } },
      heightMm: 22,
      posture: "lying",
    });
  const system = {
    name: "drainable one-piece, convex, cut-to-fit 10-45 mm",
    pieces: "one",
    closure: "drainable",
    barrier: "convex",
    opening: "cutToFit",
    maxOpeningMm: 45,
    barrierAcrossMm: 100,
  };
  await bench.append([
    ...person.drafts,
    reading(24, 40, 36),
    reading(20, 37, 34),
    reading(16, 36, 33),
    reading(14, 34, 32),
    reading(7, 32, 30),
    entry("fitted", 26, { system }),
    entry("cut", 14, {
      opening: { guide: { shape: "round", diameterMm: 36.5 } },
      how: "byHand",
      clearanceMm: 2,
    }),
  ]);
  return { ...about, path: `/people/${about.personId}/stomas/${about.stomaId}/fitting` };
}

/** A person whose stoma nobody has measured yet. */
export async function unmeasuredPerson(bench: OpenBench, name: string) {
  const { personId, stomaId, drafts } = newPerson(name);
  await bench.append(drafts);
  return { personId, stomaId, path: `/people/${personId}/stomas/${stomaId}/fitting` };
}

/** The entries of a kind in a person's record, in the order in which they were kept. */
export async function entriesOf<T = { [key: string]: unknown }>(
  bench: OpenBench,
  personId: string,
  kind: string,
) {
  const { entries } = await bench.ask<{ entries: StoredEntry[] }>(`/people/${personId}`);
  return entries.filter((entry) => entry.kind === kind) as unknown as (Omit<StoredEntry, "body"> & {
    body: T;
  })[];
}

/** Draws a closed line on the plate with the mouse, round its middle; `radiusMm` by angle, counterclockwise from 3. */
export async function drawOnPlate(page: Page, radiusMm: (turn: number) => number, turns = 1.02) {
  const plate = page.locator(".fit-plate");
  const pxPerMm = Number(await plate.getAttribute("data-px-per-mm"));
  const { x, y, width, height } = (await plate.boundingBox())!;
  const middle = [x + width / 2, y + height / 2] as const;
  const at = (turn: number) =>
    [
      middle[0] + radiusMm(turn) * pxPerMm * Math.cos(turn),
      middle[1] - radiusMm(turn) * pxPerMm * Math.sin(turn),
    ] as const;
  await page.mouse.move(...at(0));
  await page.mouse.down();
  for (let step = 1; step <= 90; step += 1) await page.mouse.move(...at((step / 90) * turns * 2 * Math.PI));
  await page.mouse.up();
}

/** Chooses a file for the button that asks for one. */
export async function chooseFile(page: Page, button: string, name: string, content: string | Buffer) {
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: button }).click();
  const mimeType = name.endsWith(".png") ? "image/png" : "text/plain";
  await (await chooser).setFiles({ name, mimeType, buffer: Buffer.from(content) });
}
