import type { FastifyRequest } from "fastify";
import type { Author } from "../record/entry/index.ts";
import type { ClinicStory } from "../record/story/index.ts";

/**
 * Who writes with this request. There are no accounts yet: it is the clinic's nurse. A session's own author takes
 * the place of this function, and of nothing else.
 */
export function authorOf(_request: FastifyRequest, { details }: Pick<ClinicStory, "details">): Author {
  return details.nurse;
}
