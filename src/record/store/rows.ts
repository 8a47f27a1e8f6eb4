import type { Insertable, Selectable } from "kysely";
import { calendarDaysBetween } from "../../domain/calendar.ts";
import type { Entry, StoredEntry } from "../entry/index.ts";
import { kinds, sortMs, upcast } from "../entry/index.ts";
import type { PersonRow, ProjectedStoma, StomaRow, WearRow } from "../projection/rows.ts";
import type { EntryTable, RecordTables } from "./schema.ts";
import type { FitRow } from "./store.ts";

export function entryToRow(entry: Entry): Insertable<EntryTable> {
  return {
    id: entry.id,
    clinic_id: entry.clinicId,
    person_id: entry.personId,
    stoma_id: entry.stomaId,
    kind: entry.kind,
    schema_version: entry.schemaVersion,
    at_ms: sortMs(entry.at),
    at: JSON.stringify(entry.at),
    recorded_at: entry.recordedAt,
    by: JSON.stringify(entry.by),
    reported_by: entry.reportedBy ?? null,
    corrects_id: entry.corrects?.id ?? null,
    corrects_as: entry.corrects?.as ?? null,
    reason: entry.reason ?? null,
    body: JSON.stringify(entry.body),
  };
}

export function entryFromRow(row: Selectable<EntryTable>): StoredEntry {
  const kind = row.kind as StoredEntry["kind"];
  return {
    cursor: Number(row.cursor),
    id: row.id,
    clinicId: row.clinic_id,
    personId: row.person_id,
    stomaId: row.stoma_id,
    kind,
    schemaVersion: kinds[kind].version,
    at: JSON.parse(row.at),
    recordedAt: row.recorded_at,
    by: JSON.parse(row.by),
    ...(row.reported_by === null ? {} : { reportedBy: row.reported_by }),
    ...(row.corrects_id === null ? {} : { corrects: { id: row.corrects_id, as: row.corrects_as } }),
    ...(row.reason === null ? {} : { reason: row.reason }),
    body: upcast(kind, row.schema_version, JSON.parse(row.body)),
  } as StoredEntry;
}

export function personToRow(clinicId: string, person: PersonRow): Insertable<RecordTables["person_row"]> {
  return {
    clinic_id: clinicId,
    person_id: person.personId,
    name: person.name,
    search_text: person.searchText,
    birth_date: person.birthDate,
    identifier: person.identifier,
    standing: person.standing,
    last_entry_ms: person.lastEntryMs,
  };
}

export function personFromRow(row: Selectable<RecordTables["person_row"]>): PersonRow {
  return {
    personId: row.person_id,
    name: row.name,
    searchText: row.search_text,
    birthDate: row.birth_date,
    identifier: row.identifier,
    standing: row.standing as PersonRow["standing"],
    lastEntryMs: row.last_entry_ms,
  };
}

/** A stoma whose fit is yet to be made. */
export function stomaToRow(
  clinicId: string,
  stoma: ProjectedStoma,
  of: { searchText: string; isOnly: boolean },
): Insertable<RecordTables["stoma_row"]> {
  const measureFrom = stoma.lastMeasuredOn ?? stoma.clockStartOn;
  return {
    clinic_id: clinicId,
    stoma_id: stoma.stomaId,
    person_id: stoma.personId,
    search_text: of.searchText,
    is_only: of.isOnly ? 1 : 0,
    type: stoma.type,
    construction: stoma.construction,
    label: stoma.label,
    standing: stoma.standing,
    surgery_on: stoma.surgeryOn,
    clock_start_on: stoma.clockStartOn,
    last_measured_on: stoma.lastMeasuredOn,
    measure_from: measureFrom,
    measured_at_day: calendarDaysBetween(stoma.clockStartOn, measureFrom),
    last_longest_mm: stoma.lastLongestMm,
    last_narrowest_mm: stoma.lastNarrowestMm,
    opening_since: stoma.openingSince,
    widest_gap_mm: stoma.widestGapMm,
    narrowest_gap_mm: stoma.narrowestGapMm,
    widest_at_hour: stoma.widestAtHour,
    gap_of: stoma.gapOf,
    system_name: stoma.systemName,
    fit_stale: 1,
    fits_until_on: null,
    fits_until_lower_on: null,
    fits_until_upper_on: null,
    fit_program: "",
    fit_protocol: 0,
  };
}

export function stomaFromRow(row: Selectable<RecordTables["stoma_row"]>): StomaRow {
  return {
    stomaId: row.stoma_id,
    personId: row.person_id,
    type: row.type,
    construction: row.construction,
    label: row.label,
    standing: row.standing as StomaRow["standing"],
    surgeryOn: row.surgery_on,
    clockStartOn: row.clock_start_on,
    lastMeasuredOn: row.last_measured_on,
    lastLongestMm: row.last_longest_mm,
    lastNarrowestMm: row.last_narrowest_mm,
    openingSince: row.opening_since,
    widestGapMm: row.widest_gap_mm,
    narrowestGapMm: row.narrowest_gap_mm,
    widestAtHour: row.widest_at_hour,
    systemName: row.system_name,
  };
}

export function wearToRow(
  clinicId: string,
  wear: WearRow,
  unplannedPlace: number | null,
): Insertable<RecordTables["wear_row"]> {
  return {
    clinic_id: clinicId,
    wear_id: wear.wearId,
    stoma_id: wear.stomaId,
    person_id: wear.personId,
    ended_ms: wear.endedMs,
    hours: wear.hours,
    why: wear.why,
    closure: wear.closure,
    planned_interval_days: wear.plannedIntervalDays,
    unplanned_place: unplannedPlace,
  };
}

export function wearFromRow(row: Selectable<RecordTables["wear_row"]>): WearRow {
  return {
    wearId: row.wear_id,
    stomaId: row.stoma_id,
    personId: row.person_id,
    endedMs: row.ended_ms,
    hours: row.hours,
    why: row.why,
    closure: row.closure,
    plannedIntervalDays: row.planned_interval_days,
  };
}

export function fitFromRow(row: Selectable<RecordTables["stoma_row"]>): FitRow {
  return {
    stomaId: row.stoma_id,
    fitsUntilOn: row.fits_until_on,
    fitsUntilLowerOn: row.fits_until_lower_on,
    fitsUntilUpperOn: row.fits_until_upper_on,
    programVersion: row.fit_program,
    protocolVersion: row.fit_protocol,
  };
}
