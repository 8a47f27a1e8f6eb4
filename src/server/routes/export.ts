import { Readable } from "node:stream";
import { todayIn } from "../../record/entry/index.ts";
import { exportRecord } from "../../record/exchange/index.ts";
import type { Bench, Workings } from "../bench.ts";
import { withoutContent } from "../log.ts";

/** The whole record, to keep or to take elsewhere. */
export function exportRoutes(bench: Bench, { store, clinic, now }: Workings): void {
  bench.get(
    "/api/export.jsonl",
    { schema: { summary: "The clinic's whole record as JSON Lines: see docs/record-format.md" } },
    async (request, reply) => {
      const { clinicId, details } = await clinic.story(request);
      const exportedAt = new Date(now()).toISOString();
      const lines = Readable.from(exportRecord(store, clinicId, { exportedAt }));
      // The answer has begun by then: the reader sees it break off, and the first line says how much was meant.
      lines.once("error", (error) => request.log.error(withoutContent(error), "the export broke off"));
      const fileName = `record-${todayIn(details.timeZone, now())}.jsonl`;
      return reply
        .header("content-disposition", `attachment; filename="${fileName}"`)
        .type("application/x-ndjson")
        .send(lines);
    },
  );
}
