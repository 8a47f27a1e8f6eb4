import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { faultsOf, InputError } from "../domain/fault.ts";
import { type Author, type BodyOf, type Entry, kinds } from "../record/entry/index.ts";

/** A clinic's details as a page sends them; the record checks them. */
export const givenDetails = z
  .looseObject({ nurse: z.looseObject({ id: z.unknown().optional() }).optional() })
  .describe(
    "The clinic as it appears on sheets: kind clinic in docs/record-format.md; the nurse or her id may be left out",
  );

/**
 * Reads details; a nurse who is not named, or without an id, is the one that is given.
 * @throws {InputError}
 */
export function readDetails(
  given: z.infer<typeof givenDetails>,
  nurse: Author,
  prefix = "",
): BodyOf<"clinic"> {
  const asked = { ...given, nurse: { ...nurse, ...given.nurse, id: given.nurse?.id ?? nurse.id } };
  const read = kinds.clinic.body.safeParse(asked);
  if (read.success) return read.data;
  throw new InputError(
    faultsOf(read.error, asked).map((fault) => ({ ...fault, path: `${prefix}${fault.path}` })),
  );
}

/** Details as the clinic's own entry. */
export function clinicEntry(
  clinicId: string,
  details: BodyOf<"clinic">,
  by: Author,
  nowMs: number,
): Entry<"clinic"> {
  const instant = new Date(nowMs).toISOString();
  return {
    id: uuidv7(),
    clinicId,
    personId: null,
    stomaId: null,
    kind: "clinic",
    schemaVersion: kinds.clinic.version,
    at: { instant, zone: details.timeZone },
    recordedAt: instant,
    by,
    body: details,
  };
}
