import { z } from "zod";
import { shape } from "./shape.ts";

export const postures = ["lying", "sitting", "standing", "bending"] as const;

/** The stoma's base at the skin, as measured. */
export const measuredBody = z
  .strictObject({
    method: z.enum(["guide", "tracing", "typed", "photo"]),
    shape,
    /** Step between the guide's rings: the size lies in (reading − step, reading]. */
    stepMm: z.number().min(0.1).max(10).optional(),
    /** Standard uncertainty of a diameter, where the method states one. */
    sdMm: z.number().min(0).max(20).optional(),
    /** Height at the lowest side; below the skin is negative. */
    heightMm: z.number().min(-40).max(150).optional(),
    posture: z.enum(postures).optional(),
    /** How a photograph was taken and scaled; kept for method `photo`. */
    photo: z
      .strictObject({
        /** The picture itself, where the person agreed to keep it. */
        photoId: z.uuid().optional(),
        /** What gave the scale. */
        scale: z.enum(["frameCard", "idCard"]),
        /** Measured over nominal size of the printed card; absent: taken to be 1. */
        cardScale: z
          .strictObject({ x: z.number().min(0.8).max(1.25), y: z.number().min(0.8).max(1.25) })
          .optional(),
        tiltDeg: z.number().min(0).max(90),
        markersFound: z.number().int().min(0).max(8).optional(),
        /** The outline was moved by hand after the photograph was read. */
        adjusted: z.boolean(),
      })
      .optional(),
    /** Sent from home and not yet accepted: it counts nowhere until a nurse replaces it by her own confirmation. */
    unconfirmed: z.literal(true).optional(),
    /** Where a tracing came from, and how it was placed to scale. */
    source: z.string().trim().max(200).optional(),
    note: z.string().trim().max(2000).optional(),
  })
  .refine(({ method, photo }) => (method === "photo") === (photo !== undefined), {
    path: ["photo"],
    message: "goes with method photo, and only with it",
    params: { expected: "how the photograph was scaled" },
  });
