import Database from "better-sqlite3";
import { addDays } from "../../../src/domain/calendar.ts";
import { type Chance, chanceFrom } from "../../../src/record/demo/chance.ts";
import { type StoredEntry, todayIn } from "../../../src/record/entry/index.ts";
import { programVersion } from "../../../src/record/programVersion.ts";
import { projectPerson } from "../../../src/record/projection/rows.ts";
import { unplannedPlaces } from "../../../src/record/store/places.ts";
import { entryToRow, personToRow, stomaToRow, wearToRow } from "../../../src/record/store/rows.ts";
import { clinicEntry, clinicId, zone } from "../../record/samples.ts";
import { Copies, distinctPeople } from "./copies.ts";
import { type Life, lifeOf } from "./lives.ts";

type Row = Record<string, unknown>;

/** People whose entries lie mixed in the file, in the order of time, as a clinic's do. */
const peopleTogether = 250;

const filled = ["entry", "person_row", "stoma_row", "wear_row"];

/**
 * Fills a record with invented people up to a number, going on from those that are there. The first thousand are each
 * made by chance and written past the store, through its own rows and projection; every further thousand is a copy of
 * them under other ids and names. Indexes are made at the end of it.
 */
export class Filling {
  private readonly db: Database.Database;
  private readonly nowMs: number;
  private readonly chance: Chance = chanceFrom(7);
  private readonly statements = new Map<string, Database.Statement>();
  private copies: Copies | null = null;
  private people = 0;
  private cursor = 1;

  constructor(file: string, nowMs: number) {
    this.db = new Database(file);
    this.nowMs = nowMs;
    this.insert("entry", { cursor: 1, ...entryToRow(clinicEntry()) });
  }

  /** @param onPeople told now and then how many there are */
  to(people: number, onPeople: (there: number) => void): void {
    this.db.pragma("synchronous = OFF");
    this.db.pragma("secure_delete = OFF");
    this.db.pragma("cache_size = -1000000");
    const expected = this.db.prepare("select tbl, idx, stat from sqlite_stat1").raw().all() as string[][];
    const made = this.dropIndexes();
    this.db.exec("delete from sqlite_stat1");
    // Others may have written since.
    this.cursor = (this.db.prepare("select max(cursor) as last from entry").get() as { last: number }).last;
    while (this.people < people) {
      this.db.transaction(() => this.addSome(people - this.people))();
      onPeople(this.people);
    }
    this.count();
    for (const statement of made) this.db.exec(statement);
    // What the engine was told to expect of an index went with it.
    for (const row of expected) this.db.prepare("insert into sqlite_stat1 values (?, ?, ?)").run(row);
    this.db.exec("analyze sqlite_schema");
    this.db.pragma("wal_checkpoint(TRUNCATE)");
  }

  close(): void {
    this.db.close();
  }

  private addSome(most: number): void {
    if (this.people < distinctPeople) {
      this.add(Math.min(peopleTogether, distinctPeople - this.people, most));
      return;
    }
    if (most < distinctPeople) throw new Error(`beyond ${distinctPeople} people come by as many at once`);
    this.copies ??= new Copies(this.db);
    this.cursor = this.copies.add(this.people / distinctPeople, this.cursor);
    this.people += distinctPeople;
  }

  private add(count: number): void {
    const lives: Life[] = [];
    for (let left = count; left > 0; left -= 1) {
      this.people += 1;
      lives.push(lifeOf(this.chance, this.people, this.nowMs));
    }
    const mixed = lives.flatMap(({ entries }) => entries);
    mixed.sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : 1));
    const stored = new Map<string, StoredEntry[]>(lives.map(({ personId }) => [personId, []]));
    for (const entry of mixed) {
      this.cursor += 1;
      this.insert("entry", { cursor: this.cursor, ...entryToRow(entry) });
      stored.get(entry.personId!)!.push({ ...entry, cursor: this.cursor } as StoredEntry);
    }
    for (const life of lives) this.project(life, stored.get(life.personId)!);
  }

  private project({ fitsUntilInDays }: Life, entries: StoredEntry[]): void {
    const { person, stomas, wears } = projectPerson(entries)!;
    this.insert("person_row", personToRow(clinicId, person));
    const fitsUntilOn = fitsUntilInDays === null ? null : addDays(todayIn(zone, this.nowMs), fitsUntilInDays);
    for (const stoma of stomas) {
      const row = stomaToRow(clinicId, stoma, { searchText: person.searchText, isOnly: stomas.length === 1 });
      const fit = { fit_stale: 0, fit_program: programVersion, fits_until_on: fitsUntilOn };
      this.insert("stoma_row", { ...row, ...fit });
    }
    const places = unplannedPlaces(stomas, wears);
    for (const wear of wears)
      this.insert("wear_row", wearToRow(clinicId, wear, places.get(wear.wearId) ?? null));
  }

  private insert(table: string, row: Row): void {
    let statement = this.statements.get(table);
    if (!statement) {
      const names = Object.keys(row).map((name) => `"${name}"`);
      statement = this.db.prepare(
        `insert into ${table} (${names.join(", ")}) values (${names.map(() => "?").join(", ")})`,
      );
      this.statements.set(table, statement);
    }
    statement.run(...Object.values(row));
  }

  private count(): void {
    this.db
      .prepare(
        `insert or replace into clinic_row (clinic_id, people, active, entries) values (?,
          (select count(*) from person_row), (select count(*) from person_row where standing = 'active'), ?)`,
      )
      .run(clinicId, this.cursor);
  }

  /** @returns the statements that make them again */
  private dropIndexes(): string[] {
    const indexes = this.db
      .prepare("select name, tbl_name, sql from sqlite_master where type = 'index' and sql is not null")
      .all() as { name: string; tbl_name: string; sql: string }[];
    const own = indexes.filter(({ tbl_name }) => filled.includes(tbl_name));
    for (const { name } of own) this.db.exec(`drop index "${name}"`);
    return own.map(({ sql }) => sql);
  }
}
