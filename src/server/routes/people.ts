import { z } from "zod";
import type { Bench, Workings } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { personParams } from "../schemas.ts";

const mostPeople = 200;

/** A place in the list, as the page before it gave it. */
const place = z
  .string()
  .max(1000)
  .refine(isPlace, {
    message: "is no place in the list",
    params: { expected: "the `next` of a page" },
  });

const query = z.object({
  text: z.string().max(200).default(""),
  after: place.optional(),
  limit: z.coerce.number().int().min(1).max(mostPeople).default(50),
});

/** The people of the clinic, and everything written about one of them. */
export function peopleRoutes(bench: Bench, { store, clinic }: Workings): void {
  bench.get(
    "/api/people",
    { schema: { summary: "People whose name or record number holds a text", querystring: query } },
    async (request) => {
      const { clinicId } = await clinic.story(request);
      const { text, after = null, limit } = request.query;
      return store.people(clinicId, { text, after, limit });
    },
  );

  bench.get(
    "/api/people/:personId",
    {
      schema: {
        summary: "Every entry about a person, in the order in which they were committed",
        params: personParams,
      },
    },
    async (request) => {
      const { clinicId } = await clinic.story(request);
      const entries = await store.entriesOfPerson(clinicId, request.params.personId);
      if (entries.length === 0) throw new Refusal("noSuchPerson");
      return { entries };
    },
  );
}

function isPlace(text: string): boolean {
  try {
    const read: unknown = JSON.parse(text);
    return Array.isArray(read) && read.length === 2 && read.every((part) => typeof part === "string");
  } catch {
    return false;
  }
}
