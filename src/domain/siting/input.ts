import { z } from "zod";
import type { Drawn, InPostures, SitingDocument } from "./document.ts";
import { landmarkKinds, sitingPostures } from "./kinds.ts";
import { quadrants } from "./quadrant.ts";

/** Nothing on a body lies farther from its navel. */
const farthestMm = 3000;

const coordinate = z.number().min(-farthestMm).max(farthestMm);
const lengthMm = z.number().positive().max(farthestMm);
const point = z.tuple([coordinate, coordinate]);
const points = z.array(point).min(1).max(2000);
const line = z.array(point).min(2).max(2000);
const area = z.array(point).min(3).max(2000);
const label = z.string().trim().min(1).max(80).optional();

const drawn: z.ZodType<Drawn> = z.union(
  [
    points,
    z.strictObject({ point, label }),
    z.strictObject({ line: points, label }),
    z.strictObject({ area, label }),
  ],
  { error: "a list of points, or an object with point, line or area" },
);
const several = inPostures(z.array(drawn).max(300), "a list of landmarks, or such a list for each posture");
const one = inPostures(
  z.union([line, z.strictObject({ area })]),
  "a line of at least 2 points or an area, or such a one for each posture",
);

function inPostures<T>(given: z.ZodType<T>, error: string): z.ZodType<InPostures<T>> {
  const byPosture = z.strictObject(
    Object.fromEntries(sitingPostures.map((posture) => [posture, given.optional()])),
  );
  return z.union([given, byPosture], { error }) as z.ZodType<InPostures<T>>;
}

export const tapeReadingsSchema = z.strictObject({
  navelToPubisMm: lengthMm,
  navelToRibMarginMm: lengthMm,
  hipToHipMm: lengthMm,
  waistMm: lengthMm,
  navelToHipMm: lengthMm.optional(),
});

const registration = z.strictObject({
  method: z.enum(["similarity", "affine"]),
  marks: z.array(z.strictObject({ seen: point, onMap: point })).max(200),
});

const limitMm = z.number().min(0).max(500);

export const sitingSchema: z.ZodType<SitingDocument> = z.strictObject({
  landmarks: z.strictObject({
    midline: line.optional(),
    muscleBorder: several.optional(),
    hipBones: z.strictObject({ right: point.optional(), left: point.optional() }).optional(),
    bones: several.optional(),
    scars: several.optional(),
    creases: several.optional(),
    folds: several.optional(),
    beltLine: one.optional(),
    visibleLimit: one.optional(),
    reachLimit: one.optional(),
    hernias: several.optional(),
    radiation: several.optional(),
    prostheses: several.optional(),
    braces: several.optional(),
    avoid: several.optional(),
    stomas: z
      .array(z.strictObject({ at: point, barrierDiameterMm: lengthMm.optional(), label }))
      .max(10)
      .optional(),
  }),
  stomaType: z.enum(["ileostomy", "colostomy", "urostomy", "fistula", "other"]),
  clearanceMm: limitMm.optional(),
  barrierDiameterMm: lengthMm.optional(),
  quadrant: z.enum(quadrants).optional(),
  largeAbdomen: z.boolean().optional(),
  limits: z
    .strictObject(
      Object.fromEntries([...landmarkKinds, "otherLevel" as const].map((kind) => [kind, limitMm.optional()])),
    )
    .optional(),
  readings: tapeReadingsSchema.optional(),
  registrations: z
    .strictObject(Object.fromEntries(sitingPostures.map((posture) => [posture, registration.optional()])))
    .optional(),
  marks: z.array(point).max(20).optional(),
}) as z.ZodType<SitingDocument>;
