import type Database from "better-sqlite3";

/** People who are made one by one. */
export const distinctPeople = 1000;

/** Columns with ids, which a copy has of its own. */
const ids: Record<string, string[]> = {
  entry: ["id", "person_id", "stoma_id"],
  person_row: ["person_id"],
  stoma_row: ["stoma_id", "person_id"],
  wear_row: ["wear_id", "stoma_id", "person_id"],
};

/** Columns with the record number, by which a copy differs in name too. */
const named: Record<string, string[]> = {
  entry: ["body"],
  person_row: ["name", "search_text", "identifier"],
  stoma_row: ["search_text"],
  wear_row: [],
};

/** Copies of the people that a record holds now, made by the engine alone. */
export class Copies {
  private readonly db: Database.Database;
  private readonly statements: Database.Statement[];

  constructor(db: Database.Database) {
    this.db = db;
    this.statements = Object.keys(ids).map((table) => this.prepared(table));
  }

  /**
   * Adds a copy, all entries after those that are there.
   * @returns the last cursor
   */
  add(number: number, cursor: number): number {
    for (const statement of this.statements) statement.run({ number, cursor });
    return (this.db.prepare("select max(cursor) as last from entry").get() as { last: number }).last;
  }

  private prepared(table: string): Database.Statement {
    const original = `original_${table}`;
    const own = table === "entry" ? "where person_id is not null order by cursor" : "";
    this.db.exec(`create temp table ${original} as select * from ${table} ${own}`);
    const columns = this.db.pragma(`table_info(${table})`) as { name: string }[];
    const values = columns.map(({ name }) => valueIn(table, name));
    const names = columns.map(({ name }) => `"${name}"`).join(", ");
    return this.db.prepare(`insert into ${table} (${names}) select ${values.join(", ")} from ${original}`);
  }
}

function valueIn(table: string, column: string): string {
  if (column === "cursor") return "rowid + @cursor";
  // At the front, so that the ids of one copy lie together as those of one time do.
  if (ids[table]!.includes(column)) return `printf('%08x', @number) || substr("${column}", 9)`;
  // Record numbers are R-1 and so on, in lower case where they are searched.
  if (named[table]!.includes(column)) {
    return `replace(replace("${column}", 'R-', 'R-' || @number || '-'), 'r-', 'r-' || @number || '-')`;
  }
  return `"${column}"`;
}
