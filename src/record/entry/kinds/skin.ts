import { z } from "zod";
import { shape } from "./shape.ts";
import { skinSigns } from "./skinSigns.ts";

const coordinateMm = z.number().min(-200).max(200);
const hour = z.number().int().min(1).max(12);

/** Drawn about the stoma's base, or between clock hours and distances from its edge. */
const place = z.union([
  z.strictObject({
    outline: z
      .array(z.tuple([coordinateMm, coordinateMm]))
      .min(3)
      .max(2000),
  }),
  z.strictObject({
    hours: z.strictObject({ from: hour, to: hour }),
    reachMm: z
      .strictObject({ from: z.number().min(0).max(150), to: z.number().positive().max(150) })
      .refine(({ from, to }) => from < to, {
        path: ["to"],
        message: "is not beyond where it begins",
        params: { expected: "more than reachMm.from" },
      }),
  }),
]);

/** The skin round the stoma, as it was looked at; no findings: looked, and nothing found. */
export const skinBody = z
  .strictObject({
    findings: z.array(z.strictObject({ what: z.enum(skinSigns), place })).max(60),
    /** What the person feels. */
    feels: z
      .array(z.enum(["itch", "burning", "pain"]))
      .max(3)
      .optional(),
    /** The base that drawn places lie about, in the same millimetres; needed where anything was found. */
    about: shape.optional(),
    photoId: z.uuid().optional(),
    note: z.string().trim().max(2000).optional(),
  })
  .refine(({ findings, about }) => findings.length === 0 || about !== undefined, {
    path: ["about"],
    message: "is missing",
    params: { expected: "the stoma's base, which the places lie about" },
  });
