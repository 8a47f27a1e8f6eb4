import { type Protocol, type ProtocolKey, protocolWith } from "../../domain/protocol/index.ts";
import { type Effective, resolve, standing } from "../effective/index.ts";
import type { BodyOf, StoredEntry } from "../entry/index.ts";

/** The clinic's details and the protocol in force, with who changed what. */
export interface ClinicStory {
  clinicId: string;
  details: BodyOf<"clinic">;
  protocol: Protocol;
  /** Counts what was ever written about the protocol, so that no number comes twice; advice keeps its own. */
  protocolVersion: number;
  changes: Effective<"protocolSet">[];
}

/** Tells the clinic's story from its own entries; null before it was set up. */
export function clinicStory(entries: readonly StoredEntry[]): ClinicStory | null {
  const effective = resolve(entries);
  const clinic = standing(effective, "clinic").at(-1)?.entry;
  if (!clinic) return null;
  const changes = standing(effective, "protocolSet");
  const values: Partial<Record<ProtocolKey, number>> = {};
  for (const { entry } of changes) values[entry.body.key] = entry.body.value;
  return {
    clinicId: clinic.clinicId,
    details: clinic.body,
    protocol: protocolWith(values),
    protocolVersion: entries.filter(({ kind }) => kind === "protocolSet").length,
    changes,
  };
}
