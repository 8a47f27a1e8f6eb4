import { z } from "zod";
import type { Paper, PrintScale, SitingRecord } from "../../documents/index.ts";
import { parseInput } from "../../domain/fault.ts";
import { protocolWith } from "../../domain/protocol/index.ts";
import { protocolChanges } from "../../domain/protocol/topic.ts";
import { bodyMap, questionOf, sitingPostures } from "../../domain/siting/index.ts";
import { sitingSchema } from "../../domain/siting/input.ts";
import { sitingTopic } from "../../domain/siting/topic.ts";

const text = z.string().trim().min(1).max(200);
const day = z.iso.date();
const place = z.tuple([z.number().min(-1000).max(1000), z.number().min(-1000).max(1000)]);

/** One document that says everything a siting record needs; region and distances are computed from it. */
const sitingDocument = z.strictObject({
  clinic: z.strictObject({ name: text, nursePhone: text }),
  person: z.strictObject({ name: text, birthDate: day.optional(), identifier: text.optional() }),
  procedure: text.optional(),
  surgeonName: text.optional(),
  emergency: z.boolean().default(false),
  continentPlan: z.boolean().default(false),
  madeOn: day,
  by: text,
  /** As `roundel compute siting` takes it. */
  siting: sitingSchema,
  marks: z
    .array(
      z.strictObject({
        rank: z.number().int().min(1).max(9),
        at: place,
        drawnAs: z.enum(["cross", "filledCircle", "notDrawn"]),
        covered: z.boolean().optional(),
        note: z.string().trim().max(200).optional(),
      }),
    )
    .max(3),
  postures: z.array(z.enum(sitingPostures)).max(sitingPostures.length),
  muscleFoundBy: z.enum(["headRaise", "legLift", "cough", "notFound"]).optional(),
  sees: z.boolean().optional(),
  reaches: z.boolean().optional(),
  consent: z.strictObject({
    given: z.boolean(),
    how: z.enum(["spoken", "written"]),
    by: z.enum(["person", "representative"]),
    representativeName: text.optional(),
  }),
  note: z.string().trim().max(400).optional(),
  demo: z.boolean(),
  protocol: protocolChanges.optional(),
});

export const sitingExample = {
  clinic: { name: "Thornmere Stoma Clinic", nursePhone: "555-0100" },
  person: { name: "Cosima Brackenhall", birthDate: "1971-03-09", identifier: "TH-0470" },
  procedure: "colectomy with end ileostomy",
  madeOn: "2026-11-25",
  by: "Ines Varga",
  siting: sitingTopic.example,
  marks: [
    { rank: 1, at: [-44, -29], drawnAs: "cross", covered: true },
    { rank: 2, at: [-51, -68], drawnAs: "filledCircle" },
  ],
  postures: ["lying", "sitting", "bending", "standing"],
  muscleFoundBy: "headRaise",
  sees: true,
  reaches: true,
  consent: { given: true, how: "spoken", by: "person" },
  demo: true,
};

/**
 * The siting record that a document asks for.
 * @throws {InputError} with every fault of the document
 */
export function sitingOfDocument(
  document: unknown,
  { paper = "A4", printScale }: { paper?: Paper; printScale?: PrintScale },
): SitingRecord {
  const { siting, protocol: changes, ...said } = parseInput(sitingDocument, document);
  const protocol = protocolWith(changes);
  const outline = siting.readings && bodyMap(siting.readings, protocol).outline;
  return { ...said, question: questionOf(siting, protocol), protocol, outline, paper, printScale };
}
