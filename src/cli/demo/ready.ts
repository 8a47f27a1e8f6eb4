import { DemoRefused, openOrMakeDemo, removeDemo } from "../../record/demo/index.ts";
import { Refusal } from "../ending.ts";
import { showProgress } from "../terminal/index.ts";

/**
 * Makes sure that a folder holds the demo.
 * @returns the day it was made, and whether that was just now
 * @throws {Refusal} where the folder holds real people, or the demo is open elsewhere and was to be made anew
 */
export async function readyDemo(dataDir: string, { remake = false }: { remake?: boolean }) {
  const nowMs = Date.now();
  try {
    if (remake) await removeDemo(dataDir);
    const shown = showProgress("Making the demo: entry");
    const { store, madeOn, isNew } = await openOrMakeDemo(dataDir, { nowMs, ...shown });
    shown.end();
    await store.close();
    return { madeOn, isNew };
  } catch (error) {
    if (error instanceof DemoRefused) throw new Refusal(error.message);
    throw error;
  }
}
