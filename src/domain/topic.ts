import type { z } from "zod";

/** A computation as the command line and the server offer it: one JSON document in, one out. */
export interface Topic<I, O> {
  /** The word that names it: `npx roundel compute NAME`. */
  name: string;
  /** One sentence for lists of topics. */
  summary: string;
  /** A whole input that works as it stands, for help and for tests. */
  example: unknown;
  schema: z.ZodType<I>;
  /** Pure; throws `InputError` where an input that fits the schema makes no sense. */
  run(input: I): O;
}
