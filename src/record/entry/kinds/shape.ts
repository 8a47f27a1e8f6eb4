import { z } from "zod";
import { InputError } from "../../../domain/fault.ts";
import { outlineOf } from "../../../domain/outline/index.ts";

const sizeMm = z.number().min(1).max(200);
const coordinateMm = z.number().min(-200).max(200);

/** A shape as it was taken: a guide reading or an outline in mm (x to the person's left, y to the head). */
export const shape = z.union([
  z.strictObject({
    guide: z.discriminatedUnion("shape", [
      z.strictObject({ shape: z.literal("round"), diameterMm: sizeMm }),
      z.strictObject({
        shape: z.literal("oval"),
        lengthMm: sizeMm,
        widthMm: sizeMm,
        tiltDeg: z.number().min(-180).max(180),
      }),
    ]),
  }),
  z
    .strictObject({
      outline: z
        .array(z.tuple([coordinateMm, coordinateMm]))
        .min(3)
        .max(4000),
    })
    .superRefine((traced, context) => {
      try {
        outlineOf(traced);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        for (const { path, problem, expected } of error.faults) {
          context.addIssue({ code: "custom", path: path.split("."), message: problem, params: { expected } });
        }
      }
    }),
]);
export type RecordedShape = z.infer<typeof shape>;
