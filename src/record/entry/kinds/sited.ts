import { z } from "zod";
import { InputError } from "../../../domain/fault.ts";
import { outlineOf } from "../../../domain/outline/index.ts";
import { landmarkKinds, quadrants, sitingPostures } from "../../../domain/siting/index.ts";
import { stomaTypes } from "./stoma.ts";

const coordinateMm = z.number().min(-1000).max(1000);
const lengthMm = z.number().positive().max(3000);
const place = z.tuple([coordinateMm, coordinateMm]);

const shape = z.union([
  z.strictObject({ point: place }),
  z.strictObject({ line: z.array(place).min(1).max(2000) }),
  z.strictObject({ area: z.array(place).min(3).max(2000) }).superRefine(({ area }, context) => {
    try {
      outlineOf({ outline: area });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      for (const { problem, expected } of error.faults) {
        context.addIssue({ code: "custom", path: ["area"], message: problem, params: { expected } });
      }
    }
  }),
]);

const landmark = z.strictObject({
  kind: z.enum(landmarkKinds),
  shape,
  /** The one posture in which it is there; absent: in all. */
  posture: z.enum(sitingPostures).optional(),
  label: z.string().trim().min(1).max(80).optional(),
  /** Of another stoma: the diameter of its barrier. */
  barrierDiameterMm: lengthMm.optional(),
});

/** How marks may be drawn on the skin. */
export const markSigns = ["cross", "filledCircle", "notDrawn"] as const;
export type MarkSign = (typeof markSigns)[number];

const mark = z.strictObject({
  /** 1 is the first choice. */
  rank: z.number().int().min(1).max(9),
  at: place,
  drawnAs: z.enum(markSigns),
  /** Covered with a transparent dressing. */
  covered: z.boolean().optional(),
  note: z.string().trim().max(400).optional(),
});

const consent = z
  .strictObject({
    given: z.boolean(),
    how: z.enum(["spoken", "written"]),
    by: z.enum(["person", "representative"]),
    representativeName: z.string().trim().min(1).max(120).optional(),
  })
  .refine(({ by, representativeName }) => by === "person" || representativeName !== undefined, {
    path: ["representativeName"],
    message: "is missing",
    params: { expected: "who spoke for the person" },
  });

/**
 * Where a stoma should go, marked before surgery; or, afterwards, where it was made, on the same map. Places are mm on
 * the skin of the person lying flat: navel = origin, x to the person's left, y to the head.
 */
export const sitedBody = z
  .strictObject({
    what: z.enum(["marked", "made"]),
    stomaType: z.enum(stomaTypes),
    /** The operation that is planned, in words. */
    procedure: z.string().trim().min(1).max(160).optional(),
    surgeonName: z.string().trim().min(1).max(160).optional(),
    /** The short form of an emergency: what was not looked at is missing, and no fault. */
    emergency: z.literal(true).optional(),
    /** A continent plan: a place for a conduit is marked too, in case it fails. */
    continentPlan: z.literal(true).optional(),
    largeAbdomen: z.boolean().optional(),
    /** The surgeon's own choice of quadrant. */
    quadrant: z.enum(quadrants).optional(),
    clearanceMm: z.number().min(0).max(150).optional(),
    barrierDiameterMm: lengthMm.optional(),
    readings: z
      .strictObject({
        navelToPubisMm: lengthMm,
        navelToRibMarginMm: lengthMm,
        hipToHipMm: lengthMm,
        waistMm: lengthMm,
        navelToHipMm: lengthMm.optional(),
      })
      .optional(),
    landmarks: z.array(landmark).max(400).optional(),
    /** Postures in which the abdomen was looked at. */
    postures: z.array(z.enum(sitingPostures)).max(sitingPostures.length).optional(),
    muscleFoundBy: z.enum(["headRaise", "legLift", "cough", "notFound"]).optional(),
    /** Whether the person sees and reaches the first choice. */
    sees: z.boolean().optional(),
    reaches: z.boolean().optional(),
    marks: z.array(mark).max(9).optional(),
    consent: consent.optional(),
    /** Who marked and signs. */
    signedBy: z.string().trim().min(1).max(160).optional(),
    /** Of a stoma that was made: the marking it goes back to, and the middle of the stoma on its map. */
    markedId: z.uuid().optional(),
    madeAt: place.optional(),
    note: z.string().trim().max(2000).optional(),
  })
  .superRefine((body, context) => {
    const missing = (path: string, expected: string) =>
      context.addIssue({ code: "custom", path: [path], message: "is missing", params: { expected } });
    if (body.what === "made" && body.madeAt === undefined)
      missing("madeAt", "the middle of the stoma on the map");
    if (body.what === "marked" && !body.marks?.length) missing("marks", "at least one marked place");
    if (body.what === "marked" && !body.consent) missing("consent", "what the person said to being marked");
    const ranks = body.marks?.map(({ rank }) => rank) ?? [];
    if (new Set(ranks).size < ranks.length) {
      const params = { expected: "a rank of its own for each mark" };
      context.addIssue({ code: "custom", path: ["marks"], message: "give one rank twice", params });
    }
  });
