import { Readable } from "node:stream";
import { z } from "zod";
import { auditActions, auditObjectKinds, auditOutcomes, exportAudit } from "../../record/audit/index.ts";
import { todayIn } from "../../record/entry/index.ts";
import type { Bench, Workings } from "../bench.ts";
import { withoutContent } from "../log.ts";

const query = z.object({
  personId: z.uuid().optional(),
  accountId: z.uuid().optional(),
  before: z.coerce.number().int().min(1).optional(),
  limit: z.coerce.number().int().min(1).max(500).default(100),
});

const line = z.object({
  seq: z.number(),
  clinicId: z.string(),
  atMs: z.number(),
  accountId: z.string().nullable(),
  sessionId: z.string().nullable(),
  action: z.enum(auditActions),
  objects: z.array(z.object({ kind: z.enum(auditObjectKinds), id: z.string() })).readonly(),
  outcome: z.enum(auditOutcomes),
  prev: z.string(),
  hash: z.string(),
});

/** Who saw and changed what, for the lead. */
export function auditRoutes(bench: Bench, { audit, clinic, now }: Workings): void {
  bench.get(
    "/api/audit",
    {
      schema: {
        summary: "Lines of the audit trail, newest first: all, about a person, or by an account",
        querystring: query,
        response: { 200: z.object({ lines: z.array(line), next: z.number().nullable() }) },
      },
    },
    async (request) => {
      const { clinicId } = await clinic.story(request);
      return audit.page(clinicId, request.query);
    },
  );

  bench.get(
    "/api/audit.jsonl",
    { schema: { summary: "The whole audit trail as JSON Lines, with the hashes that chain it" } },
    async (request, reply) => {
      const { clinicId, details } = await clinic.story(request);
      const lines = Readable.from(
        exportAudit(audit, clinicId, { exportedAt: new Date(now()).toISOString() }),
      );
      lines.once("error", (error) => request.log.error(withoutContent(error), "the export broke off"));
      return reply
        .header(
          "content-disposition",
          `attachment; filename="audit-${todayIn(details.timeZone, now())}.jsonl"`,
        )
        .type("application/x-ndjson")
        .send(lines);
    },
  );
}
