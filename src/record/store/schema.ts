import type { Generated } from "kysely";

/** Tables as Kysely sees them; the same for every engine. */
export interface RecordTables {
  entry: EntryTable;
  person_row: PersonTable;
  stoma_row: StomaTable;
  wear_row: WearTable;
  fit_row: FitTable;
  mark: { name: string; value: string };
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
  type: string;
  construction: string;
  label: string | null;
  standing: string;
  surgery_on: string | null;
  clock_start_on: string;
  last_measured_on: string | null;
  /** Last measured, or the clock's start where it never was: what the due list scans. */
  measure_from: string;
  last_longest_mm: number | null;
  last_narrowest_mm: number | null;
  opening_since: string | null;
  widest_gap_mm: number | null;
  narrowest_gap_mm: number | null;
  widest_at_hour: number | null;
  system_name: string | null;
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
}

interface FitTable {
  clinic_id: string;
  stoma_id: string;
  person_id: string;
  /** Kept true by any entry about the stoma, until the fit is made again. */
  stale: number;
  fits_until_on: string | null;
  fits_until_lower_on: string | null;
  fits_until_upper_on: string | null;
  program_version: string;
  protocol_version: number;
}
