import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import type { OpenRecord } from "../record/open/index.ts";
import type { Cookies } from "./access/index.ts";
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

/** The parts of a record that are served. */
export type ServedRecord = Pick<
  OpenRecord,
  "store" | "accounts" | "belonging" | "audit" | "erasure" | "photos"
>;

/** What routes work with. */
export interface Workings extends ServedRecord {
  now: () => number;
  cookies: Cookies;
  /** Where the bench is known by another address than it is asked under. */
  publicUrl: URL | null;
  /** Whether the demo's own account is signed in by itself. */
  demoSignIn: boolean;
  clinic: Clinic;
  fits: FitsInBackground;
  turns: Turns;
}
