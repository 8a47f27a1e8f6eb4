import type { z } from "zod";
import { advisedBody } from "./advised.ts";
import { changedBody } from "./changed.ts";
import { clinicBody } from "./clinic.ts";
import { consentedBody } from "./consented.ts";
import { cutBody } from "./cut.ts";
import { eventBody } from "./event.ts";
import { fittedBody } from "./fitted.ts";
import { measuredBody } from "./measured.ts";
import { notedBody } from "./noted.ts";
import { personBody } from "./person.ts";
import { protocolSetBody } from "./protocolSet.ts";
import { sitedBody } from "./sited.ts";
import { skinBody } from "./skin.ts";
import { stomaBody } from "./stoma.ts";

/** Whom an entry is about: it decides which ids the envelope must carry. */
export type Scope = "clinic" | "person" | "stoma" | "personOrStoma";

interface KindDefinition<B extends z.ZodType> {
  scope: Scope;
  version: number;
  body: B;
  /** `upcasters[n]` turns a body of version n into one of version n + 1; stored bodies are never rewritten. */
  upcasters: Record<number, (body: unknown) => unknown>;
}

function kind<B extends z.ZodType>(scope: Scope, body: B): KindDefinition<B> {
  return { scope, version: 1, body, upcasters: {} };
}

/** Every kind of entry, by its name in the record. */
export const kinds = {
  clinic: kind("clinic", clinicBody),
  protocolSet: kind("clinic", protocolSetBody),
  person: kind("person", personBody),
  stoma: kind("stoma", stomaBody),
  measured: kind("stoma", measuredBody),
  cut: kind("stoma", cutBody),
  fitted: kind("stoma", fittedBody),
  changed: kind("stoma", changedBody),
  event: kind("personOrStoma", eventBody),
  noted: kind("personOrStoma", notedBody),
  skin: kind("stoma", skinBody),
  consented: kind("person", consentedBody),
  sited: kind("personOrStoma", sitedBody),
  advised: kind("stoma", advisedBody),
} as const;

export type Kind = keyof typeof kinds;
export type BodyOf<K extends Kind> = z.infer<(typeof kinds)[K]["body"]>;
export const kindNames = Object.keys(kinds) as Kind[];
