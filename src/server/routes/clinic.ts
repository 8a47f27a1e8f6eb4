import { v4 as uuidv4, v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { faultsOf, InputError } from "../../domain/fault.ts";
import { type BodyOf, type Entry, kinds } from "../../record/entry/index.ts";
import type { ClinicStory } from "../../record/story/index.ts";
import type { Bench, Workings } from "../bench.ts";
import { sessionOf } from "./session.ts";

const body = z.strictObject({
  details: z
    .looseObject({ nurse: z.looseObject({ id: z.unknown().optional() }) })
    .describe(
      "The clinic as it appears on sheets: kind clinic in docs/record-format.md; nurse.id may be left out",
    ),
});

/** First set-up of the clinic, and later changes of its details. */
export function clinicRoutes(bench: Bench, workings: Workings): void {
  const { store, clinic, turns, now } = workings;
  bench.post(
    "/api/clinic",
    { schema: { summary: "Set up the clinic, or change its details", body } },
    (request) =>
      turns.take("clinic", async () => {
        const before = await clinic.storyIfAny();
        const details = readDetails(request.body.details, before);
        if (!before || !isSame(details, before.details)) {
          await store.append([entryFor(details, before, now())]);
        }
        return sessionOf(request, workings, await clinic.storyIfAny());
      }),
  );
}

/** A nurse without an id is the one there was, or a new one. */
function readDetails(given: z.infer<typeof body>["details"], before: ClinicStory | null): BodyOf<"clinic"> {
  const id = given.nurse.id ?? before?.details.nurse.id ?? uuidv4();
  const asked = { ...given, nurse: { ...given.nurse, id } };
  const read = kinds.clinic.body.safeParse(asked);
  if (!read.success) throw new InputError(faultsOf(read.error, asked));
  return read.data;
}

function isSame(a: BodyOf<"clinic">, b: BodyOf<"clinic">): boolean {
  const inOrder = ({ nurse, ...rest }: BodyOf<"clinic">) =>
    JSON.stringify([Object.entries(rest).sort(), nurse.id, nurse.name]);
  return inOrder(a) === inOrder(b);
}

function entryFor(details: BodyOf<"clinic">, before: ClinicStory | null, nowMs: number): Entry<"clinic"> {
  const instant = new Date(nowMs).toISOString();
  return {
    id: uuidv7(),
    clinicId: before?.clinicId ?? uuidv4(),
    personId: null,
    stomaId: null,
    kind: "clinic",
    schemaVersion: kinds.clinic.version,
    at: { instant, zone: details.timeZone },
    recordedAt: instant,
    by: before?.details.nurse ?? details.nurse,
    body: details,
  };
}
