import { z } from "zod";
import { roles } from "../record/accounts/index.ts";

/** Schemas that several routes share. */
export const personParams = z.object({ personId: z.uuid() });
export const stomaParams = z.object({ personId: z.uuid(), stomaId: z.uuid() });

const faultSchema = z.object({
  path: z.string(),
  problem: z.string(),
  got: z.unknown(),
  expected: z.string(),
});

/** Every answer that is not what was asked for. */
export const errorSchema = z
  .object({
    error: z.object({
      code: z.string(),
      sentence: z.string(),
      faults: z.array(faultSchema).optional(),
      existing: z.record(z.string(), z.unknown()).optional(),
      waitSeconds: z.number().optional(),
      personIds: z.array(z.string()).optional(),
      id: z.string().optional(),
    }),
  })
  .describe("What is wrong, as a code and as a sentence; the fields at fault where there are any");

/** A draft of an entry; the record checks it and names every fault. */
export const draftSchema = z
  .unknown()
  .describe("An entry without clinicId, by and recordedAt: see docs/record-format.md");

/** Checked by nobody on the way out: what is described is held to what is sent by tests. */
export const sessionSchema = z
  .object({
    signedIn: z.boolean(),
    setUp: z.boolean(),
    account: z
      .object({
        accountId: z.uuid(),
        signInName: z.string(),
        displayName: z.string(),
        role: z.enum(roles),
      })
      .nullable(),
    strongUntilMs: z.number().nullable(),
    endsInMs: z.object({ idle: z.number(), absolute: z.number() }).nullable(),
    passkeysPossible: z.boolean(),
    clinic: z.object({ clinicId: z.uuid(), details: z.record(z.string(), z.unknown()) }).nullable(),
    author: z.object({ id: z.uuid(), name: z.string() }).nullable(),
    demo: z.boolean(),
    today: z.iso.date(),
    protocol: z.record(z.string(), z.number()),
    protocolVersion: z.number(),
    programVersion: z.string(),
    counts: z.object({ people: z.number(), active: z.number(), entries: z.number() }),
  })
  .describe("Who is signed in, and what every page needs first");

export const accountSchema = z
  .object({
    accountId: z.uuid(),
    clinicId: z.uuid(),
    signInName: z.string(),
    displayName: z.string(),
    role: z.enum(roles),
    personId: z.uuid().nullable(),
    hasPassword: z.boolean(),
    passkeys: z.number(),
    secondFactor: z.boolean(),
    demo: z.boolean(),
    createdMs: z.number(),
    closedMs: z.number().nullable(),
  })
  .describe("Someone who can sign in");

export const linkSchema = z
  .object({ link: z.string(), expiresMs: z.number() })
  .describe("A link that works once: it is shown now and never again");

/** The secret of a link, as it stands behind its hash sign. */
export const token = z.string().min(1).max(200);

/** A body in which nothing is said. */
export const emptyBody = z.strictObject({});

export const ownPasskeys = z.array(
  z.object({
    credentialId: z.string(),
    name: z.string(),
    createdMs: z.number(),
    lastUsedMs: z.number().nullable(),
    here: z.boolean(),
  }),
);
