import { todayList } from "../../record/today/index.ts";
import type { Bench, Workings } from "../bench.ts";

/** Whom to see or call today. */
export function todayRoutes(bench: Bench, { store, clinic, fits, now }: Workings): void {
  bench.get("/api/today", { schema: { summary: "Whom to see or call, and why" } }, async () => {
    const story = await clinic.story();
    await fits.freshen(story);
    return todayList(store, story, now());
  });
}
