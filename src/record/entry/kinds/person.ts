import { z } from "zod";
import { plainDate } from "../at.ts";

/** A person's details; the last entry holds. Two identifiers go on every sheet, so one beside the name is needed. */
export const personBody = z
  .strictObject({
    name: z.string().trim().min(1).max(160),
    birthDate: plainDate.optional(),
    identifier: z.string().trim().min(1).max(60).optional(),
    phone: z.string().trim().max(60).optional(),
    language: z.string().trim().max(60).optional(),
    interpreter: z.boolean().optional(),
    /** What to know about sight and hands when teaching or sending a sheet. */
    sight: z.string().trim().max(400).optional(),
    dexterity: z.string().trim().max(400).optional(),
    caredForBy: z.enum(["self", "helper", "nurse"]).optional(),
    helperName: z.string().trim().max(160).optional(),
    homeOn: plainDate.optional(),
  })
  .refine((person) => person.birthDate !== undefined || person.identifier !== undefined, {
    path: ["birthDate"],
    message: "is missing, and so is the identifier",
    params: { expected: "a birth date or a record number: sheets carry two identifiers" },
  });
