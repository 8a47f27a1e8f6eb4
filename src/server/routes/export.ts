import { Readable } from "node:stream";
import { todayIn } from "../../record/entry/index.ts";
import { exportRecord } from "../../record/exchange/index.ts";
import type { Bench, Workings } from "../bench.ts";

/** The whole record, to keep or to take elsewhere. */
export function exportRoutes(bench: Bench, { store, clinic, now }: Workings): void {
  bench.get(
    "/api/export.jsonl",
    { schema: { summary: "The clinic's whole record as JSON Lines: see docs/record-format.md" } },
    async (_request, reply) => {
      const { clinicId, details } = await clinic.story();
      const exportedAt = new Date(now()).toISOString();
      const fileName = `record-${todayIn(details.timeZone, now())}.jsonl`;
      return reply
        .header("content-disposition", `attachment; filename="${fileName}"`)
        .type("application/x-ndjson")
        .send(Readable.from(exportRecord(store, clinicId, { exportedAt })));
    },
  );
}
