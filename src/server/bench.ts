import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import type { RecordStore } from "../record/store/index.ts";
import type { Clinic } from "./clinic.ts";
import type { FitsInBackground } from "./fitsInBackground.ts";
import type { Turns } from "./turns.ts";

/** The server with zod as the language of its schemas. */
export type Bench = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** What routes work with. */
export interface Workings {
  store: RecordStore;
  now: () => number;
  clinic: Clinic;
  fits: FitsInBackground;
  turns: Turns;
}
