import { z } from "zod";
import { parsePlace, todayList } from "../../record/today/index.ts";
import type { Bench, Workings } from "../bench.ts";

const mostLines = 200;

/** A place in the list, as the lines before it gave it. */
const place = z
  .string()
  .max(200)
  .refine(isPlace, {
    message: "is no place in the list",
    params: { expected: "the `next` of a list" },
  });

const query = z.object({
  after: place.optional(),
  limit: z.coerce.number().int().min(1).max(mostLines).default(mostLines),
});

/** Whom to see or call today. */
export function todayRoutes(bench: Bench, { store, clinic, fits, now }: Workings): void {
  bench.get(
    "/api/today",
    { schema: { summary: "Whom to see or call, and why", querystring: query } },
    async (request) => {
      const story = await clinic.story(request);
      await fits.freshen(story);
      return todayList(store, story, now(), request.query);
    },
  );
}

function isPlace(text: string): boolean {
  try {
    parsePlace(text);
    return true;
  } catch {
    return false;
  }
}
