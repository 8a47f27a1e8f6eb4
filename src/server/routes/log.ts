import type { FastifyRequest } from "fastify";
import { z } from "zod";
import { parseInput } from "../../domain/fault.ts";
import { checkLog, dateOrders, importLog, type LogReport, writeLog } from "../../record/log/index.ts";
import { onLatest } from "../../record/store/index.ts";
import { readThroughOf } from "../../record/story/index.ts";
import { authorOf } from "../author.ts";
import type { Bench, Workings } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { refuseAsLog } from "../intake/index.ts";
import { personParams, stomaParams } from "../schemas.ts";
import { personOf, stomaOf } from "../stomaOf.ts";
import { readUpload } from "../upload.ts";

const checkFields = z.strictObject({ dateOrder: z.enum(dateOrders).optional() });
const importFields = checkFields.extend({ accept: z.enum(["all", "goodOnly"]) });
const whichStoma = z.object({ stomaId: z.uuid().optional() });

/** Faults that travel; `badLines` counts them all. */
const mostFaults = 500;

/** The log of changes: checked, imported and written as CSV. */
export function logRoutes(bench: Bench, { store, clinic, turns, now }: Workings): void {
  const about = { consumes: ["multipart/form-data"], params: stomaParams };

  bench.post(
    "/api/people/:personId/stomas/:stomaId/log/check",
    { schema: { summary: "What an import of this log would do", ...about } },
    async (request): Promise<Omit<LogReport, "drafts">> => {
      const { file, fields } = await readUpload(request);
      refuseAsLog(file);
      const { dateOrder } = parseInput(checkFields, fields);
      const checked = await check(request.params, file, dateOrder, request);
      const { drafts: _kept, ...report } = checked.report;
      return { ...report, bad: report.bad.slice(0, mostFaults) };
    },
  );

  bench.post(
    "/api/people/:personId/stomas/:stomaId/log/import",
    { schema: { summary: "Import a log of changes, all of it or none", ...about } },
    async (request) => {
      const story = await clinic.story(request);
      const { file, fields } = await readUpload(request);
      refuseAsLog(file);
      const { dateOrder, accept } = parseInput(importFields, fields);
      const author = authorOf(request);
      const { alongside } = request;
      const importNow = async () => {
        const { report, readThrough } = await check(request.params, file, dateOrder, request);
        const options = {
          clinicId: story.clinicId,
          ...request.params,
          author,
          nowMs: now(),
          accept,
          readThrough,
          alongside,
        };
        const { left, ...done } = await importLog(store, report, options);
        return { ...done, left: left.slice(0, mostFaults) };
      };
      return turns.take(request.params.stomaId, () => onLatest(importNow));
    },
  );

  bench.get(
    "/api/people/:personId/changes.csv",
    {
      schema: {
        summary: "One stoma's changes as CSV, in the columns that an import reads",
        params: personParams,
        querystring: whichStoma,
      },
    },
    async (request, reply) => {
      const { clinicId, details } = await clinic.story(request);
      const person = await personOf(store, clinicId, request.params.personId);
      const { stomaId } = request.query;
      const found = person.stomas.filter((one) => stomaId === undefined || one.stomaId === stomaId);
      const [stoma, another] = found;
      if (!stoma) throw new Refusal("noSuchStoma");
      if (another) throw new Refusal("whichStoma");
      return reply
        .header("content-disposition", 'attachment; filename="changes.csv"')
        .type("text/csv; charset=utf-8")
        .send(`\ufeff${writeLog(stoma, details.timeZone)}`);
    },
  );

  /** Stops when whoever asked went away. */
  async function check(
    params: z.infer<typeof stomaParams>,
    file: Uint8Array,
    dateOrder: LogReport["dateOrder"] | undefined,
    request: FastifyRequest,
  ): Promise<{ report: LogReport; readThrough: number }> {
    const { clinicId, details } = await clinic.story(request);
    const { person, stoma } = await stomaOf(store, clinicId, params);
    const gone = new AbortController();
    request.raw.socket.once("close", () => gone.abort());
    const report = await checkLog(
      file,
      { stoma, history: person.history, zone: details.timeZone, nowMs: now() },
      { dateOrder: dateOrder ?? undefined, signal: gone.signal },
    );
    return { report, readThrough: readThroughOf(person) };
  }
}
