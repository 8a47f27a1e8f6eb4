import type { Generated } from "kysely";
import type { AccountTables } from "../accounts/tables.ts";
import type { AuditHeadTable, AuditLineTable, AuditPersonTable } from "../audit/tables.ts";
import type { TombstoneTable } from "../erasure/tables.ts";
import type { PhotoTable } from "../photo/tables.ts";

/** Tables as Kysely sees them; the same for every engine. */
export interface RecordTables extends AccountTables {
  entry: EntryTable;
  person_row: PersonTable;
  stoma_row: StomaTable;
  wear_row: WearTable;
  clinic_row: ClinicTable;
  mark: { name: string; value: string };
  audit_line: AuditLineTable;
  audit_person: AuditPersonTable;
  audit_head: AuditHeadTable;
  tombstone: TombstoneTable;
  photo: PhotoTable;
}

export interface EntryTable {
  cursor: Generated<number>;
  id: string;
  clinic_id: string;
  person_id: string | null;
  stoma_id: string | null;
  kind: string;
  schema_version: number;
  at_ms: number;
  at: string;
  recorded_at: string;
  by: string;
  reported_by: string | null;
  corrects_id: string | null;
  corrects_as: string | null;
  reason: string | null;
  body: string;
}

interface PersonTable {
  clinic_id: string;
  person_id: string;
  name: string;
  search_text: string;
  birth_date: string | null;
  identifier: string | null;
  standing: string;
  last_entry_ms: number;
}

interface StomaTable {
  clinic_id: string;
  stoma_id: string;
  person_id: string;
  /** The person's, so that lists are in order of names without another look. */
  search_text: string;
  /** 1 where the person has no other stoma; who has several counts once on a list. */
  is_only: number;
  type: string;
  construction: string;
  label: string | null;
  standing: string;
  surgery_on: string | null;
  clock_start_on: string;
  last_measured_on: string | null;
  /** Last measured, or the clock's start where it never was: what the due list scans. */
  measure_from: string;
  /** Days from the clock's start to then: whether the stoma counted as new. */
  measured_at_day: number;
  last_longest_mm: number | null;
  last_narrowest_mm: number | null;
  opening_since: string | null;
  widest_gap_mm: number | null;
  narrowest_gap_mm: number | null;
  widest_at_hour: number | null;
  /** The entries of reading and opening that the gap lies between: while they hold, it is not measured again. */
  gap_of: string | null;
  system_name: string | null;
  /** Kept true by any entry about the person, until the fit is made again. */
  fit_stale: number;
  fits_until_on: string | null;
  fits_until_lower_on: string | null;
  fits_until_upper_on: string | null;
  /** Program and protocol by which the fit was made. */
  fit_program: string;
  fit_protocol: number;
}

interface WearTable {
  clinic_id: string;
  wear_id: string;
  stoma_id: string;
  person_id: string;
  ended_ms: number;
  hours: number;
  why: string;
  closure: string | null;
  planned_interval_days: number | null;
  /** 1 for the last unplanned end of an active stoma, 2 for the one before; null for long ago, see places.ts. */
  unplanned_place: number | null;
}

/** How many there are, kept as entries come in: nobody counts a large record to show a number. */
interface ClinicTable {
  clinic_id: string;
  people: number;
  active: number;
  entries: number;
}
