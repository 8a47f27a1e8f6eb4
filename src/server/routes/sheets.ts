import type { FastifyReply } from "fastify";
import { z } from "zod";
import { adviseCuttingSheet, sheetOrder } from "../../documents/fromRecord/index.ts";
import { frameCard } from "../../documents/index.ts";
import { authorOf } from "../author.ts";
import type { Bench, Workings } from "../bench.ts";
import { stomaParams } from "../schemas.ts";
import { stomaOf } from "../stomaOf.ts";

const card = z.object({
  paper: z.enum(["A4", "Letter"]).optional(),
  x: z.coerce.number().optional(),
  y: z.coerce.number().optional(),
});

/** What is printed. File names carry no name: they are seen in download folders and on printers. */
export function sheetsRoutes(bench: Bench, { store, clinic, turns, now }: Workings): void {
  bench.post(
    "/api/people/:personId/stomas/:stomaId/cutting-sheet",
    {
      schema: {
        summary: "Make a cutting sheet and record that it was given; the same adviceId gives the same sheet",
        params: stomaParams,
        body: sheetOrder,
      },
    },
    async (request, reply) => {
      const story = await clinic.story(request);
      const { personId, stomaId } = request.params;
      await stomaOf(store, story.clinicId, request.params);
      const demo = (await store.mark("demo")) !== null;
      const author = authorOf(request);
      const { pdf, sheet } = await turns.take(stomaId, () =>
        adviseCuttingSheet(
          store,
          story.clinicId,
          { ...request.body, personId, stomaId },
          { author, nowMs: now(), demo, alongside: request.alongside },
        ),
      );
      return sendPdf(reply, pdf, `cutting-sheet-${sheet.sheetNumber}-${sheet.madeOn}.pdf`);
    },
  );

  bench.get(
    "/api/frame-card.pdf",
    { schema: { summary: "The paper measuring frame", querystring: card } },
    async (request, reply) => {
      const { details } = await clinic.story(request);
      const { paper = details.paper, x = 1, y = 1 } = request.query;
      const pdf = await frameCard({ paper, batchLabel: details.name, printScale: { x, y } });
      return sendPdf(reply, pdf, "frame-card.pdf");
    },
  );
}

function sendPdf(reply: FastifyReply, pdf: Buffer, fileName: string): FastifyReply {
  return reply
    .header("content-disposition", `inline; filename="${fileName}"`)
    .type("application/pdf")
    .send(pdf);
}
