import type { FastifyReply } from "fastify";
import { z } from "zod";
import type { OpenedPhoto } from "../../record/photo/index.ts";
import type { Bench, Workings } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { acceptImage } from "../intake/index.ts";
import { personParams } from "../schemas.ts";
import { stomaOf } from "../stomaOf.ts";
import { readUpload } from "../upload.ts";

const photoParams = personParams.extend({ photoId: z.uuid() });
const keepParams = photoParams.extend({ stomaId: z.uuid() });

const photoFacts = z.object({
  photoId: z.uuid(),
  personId: z.uuid(),
  stomaId: z.uuid().nullable(),
  entryId: z.uuid().nullable(),
  takenMs: z.number().nullable(),
  keptMs: z.number(),
  widthPx: z.number(),
  heightPx: z.number(),
});

/** Photographs that people agreed to have kept: pixels alone, sealed at rest. */
export function photosRoutes(bench: Bench, { store, photos, clinic, now }: Workings): void {
  bench.put(
    "/api/people/:personId/stomas/:stomaId/photos/:photoId",
    {
      schema: {
        summary: "Keep a photograph the person agreed to; sending it again with the same id is harmless",
        consumes: ["multipart/form-data"],
        params: keepParams,
      },
    },
    async (request, reply) => {
      const { clinicId } = await clinic.story(request);
      const { personId, stomaId, photoId } = request.params;
      const { person } = await stomaOf(store, clinicId, { personId, stomaId });
      if (!person.consents.keep?.entry.body.given) throw new Refusal("photoNotAgreed");
      const { file } = await readUpload(request);
      acceptImage(file);
      await photos.keep({ clinicId, personId, stomaId, photoId, bytes: file, takenMs: null, nowMs: now() });
      return reply.code(204).send();
    },
  );

  bench.get(
    "/api/people/:personId/photos",
    {
      schema: {
        summary: "Photographs of a person that are kept, latest first",
        params: personParams,
        response: { 200: z.object({ photos: z.array(photoFacts) }) },
      },
    },
    async (request) => {
      const { clinicId } = await clinic.story(request);
      return { photos: await photos.list(clinicId, request.params.personId) };
    },
  );

  bench.get(
    "/api/people/:personId/photos/:photoId",
    { schema: { summary: "One photograph", params: photoParams } },
    async (request, reply) => {
      const { clinicId } = await clinic.story(request);
      return picture(reply, await photos.open(clinicId, request.params.photoId));
    },
  );

  bench.get(
    "/api/people/:personId/photos/:photoId/small",
    { schema: { summary: "The same, small, for lists", params: photoParams } },
    async (request, reply) => {
      const { clinicId } = await clinic.story(request);
      return picture(reply, await photos.openThumbnail(clinicId, request.params.photoId));
    },
  );

  bench.delete(
    "/api/people/:personId/photos/:photoId",
    { schema: { summary: "Delete a photograph, its small one and its key", params: photoParams } },
    async (request, reply) => {
      const { clinicId } = await clinic.story(request);
      await photos.remove(clinicId, request.params.photoId);
      return reply.code(204).send();
    },
  );
}

function picture(reply: FastifyReply, opened: OpenedPhoto | null) {
  if (!opened) throw new Refusal("noSuchPhoto");
  return reply.type("image/jpeg").send(Buffer.from(opened.bytes));
}
