import { type Kysely, sql } from "kysely";

/**
 * What SQLite is told to expect of a large record, since it plans as if every clinic had ten rows where it knows
 * nothing, and then reads a whole clinic by whatever index begins with it. Rows in all, then rows that share the first
 * column, the first two, and so on. `analyze` puts the true ones in their place.
 * @source sqlite.org, fileformat2 section 2.6.3, "The sqlite_stat1 table": an application may write it
 */
const expected: Record<string, Record<string, number[]>> = {
  entry: {
    entry_by_id: [20e6, 1, 1],
    entry_by_person: [20e6, 200, 200, 1],
    entry_by_correction: [100e3, 1, 1],
  },
  person_row: {
    sqlite_autoindex_person_row_1: [100e3, 1, 1],
    person_by_name: [100e3, 100e3, 2, 1],
  },
  stoma_row: {
    sqlite_autoindex_stoma_row_1: [100e3, 1, 1],
    stoma_by_person: [100e3, 1, 1],
    stoma_counted: [100e3, 1, 1, 1, 1, 1, 1, 1, 1, 1],
    stoma_by_fit: [100e3, 100e3, 50e3, 50e3, 50e3],
    stoma_by_measuring: [100e3, 100e3, 90e3, 300, 2, 1, 1, 1, 1, 1, 1, 1],
    stoma_by_newness: [100e3, 100e3, 90e3, 300, 10, 5, 2, 2, 2, 1],
    stoma_by_fits_until: [100e3, 100e3, 90e3, 300, 2, 1],
    stoma_by_widest_gap: [100e3, 100e3, 90e3, 50, 2, 1],
    stoma_by_narrowest_gap: [100e3, 100e3, 90e3, 50, 2, 1],
  },
  wear_row: {
    sqlite_autoindex_wear_row_1: [15e6, 1, 1],
    wear_by_stoma: [15e6, 150, 150, 1],
    wear_by_person: [15e6, 150, 150],
    wear_by_unplanned_place: [1e6, 1e6, 80e3, 1, 1],
    wear_by_unplanned: [1e6, 10, 10, 1, 1, 1, 1, 1],
  },
};

export async function expectLargeRecords(db: Kysely<unknown>): Promise<void> {
  // Makes the table that is written to; nothing is there to be measured yet.
  await sql`analyze`.execute(db);
  for (const [table, indexes] of Object.entries(expected)) {
    for (const [index, rows] of Object.entries(indexes)) {
      await sql`insert into sqlite_stat1 (tbl, idx, stat) values (${table}, ${index}, ${rows.join(" ")})`.execute(
        db,
      );
    }
  }
  await sql`analyze sqlite_schema`.execute(db);
}
