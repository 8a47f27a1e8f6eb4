import type { Insertable, Kysely, Selectable } from "kysely";
import type { RecordTables } from "./schema.ts";

type Db = Kysely<RecordTables>;
type Projected = "person_row" | "stoma_row" | "wear_row";
type Fresh<Table extends Projected> = Insertable<RecordTables[Table]>;
type Kept<Table extends Projected> = Selectable<RecordTables[Table]>;

/** Everything that the lists keep of one person. */
export interface PersonRows {
  person: Fresh<"person_row"> | null;
  stomas: Fresh<"stoma_row">[];
  wears: Fresh<"wear_row">[];
}

interface KeptRows {
  person: Kept<"person_row"> | null;
  stomas: Kept<"stoma_row">[];
  wears: Kept<"wear_row">[];
}

/** What the lists keep of a person now. */
export async function keptRows(trx: Db, clinicId: string, personId: string): Promise<KeptRows> {
  const of = { clinic_id: clinicId, person_id: personId };
  const person = await trx
    .selectFrom("person_row")
    .selectAll()
    .where((row) => row.and(of))
    .executeTakeFirst();
  const stomas = await trx
    .selectFrom("stoma_row")
    .selectAll()
    .where((row) => row.and(of))
    .execute();
  const wears = await trx
    .selectFrom("wear_row")
    .selectAll()
    .where((row) => row.and(of))
    .execute();
  return { person: person ?? null, stomas, wears };
}

/** Only columns that differ are written, here and below: each that is costs every index that has it. */
export async function writePerson(
  trx: Db,
  before: KeptRows["person"],
  after: PersonRows["person"],
): Promise<void> {
  if (after && !before) {
    await trx.insertInto("person_row").values(after).execute();
    return;
  }
  if (!before) return;
  const key = { clinic_id: before.clinic_id, person_id: before.person_id };
  const changed = after && changedColumns(before, after);
  if (changed && Object.keys(changed).length === 0) return;
  await (changed
    ? trx
        .updateTable("person_row")
        .set(changed)
        .where((row) => row.and(key))
        .execute()
    : trx
        .deleteFrom("person_row")
        .where((row) => row.and(key))
        .execute());
}

/** A fit that is there is kept, as one that is to be made again. */
export async function writeStomas(
  trx: Db,
  before: KeptRows["stomas"],
  after: PersonRows["stomas"],
): Promise<void> {
  const known = new Map(before.map((row) => [row.stoma_id, row]));
  for (const row of after) {
    const kept = known.get(row.stoma_id);
    known.delete(row.stoma_id);
    if (!kept) {
      await trx.insertInto("stoma_row").values(row).execute();
      continue;
    }
    const changed = changedColumns(kept, { ...row, ...fitOf(kept) });
    if (Object.keys(changed).length === 0) continue;
    await trx
      .updateTable("stoma_row")
      .set(changed)
      .where("clinic_id", "=", kept.clinic_id)
      .where("stoma_id", "=", kept.stoma_id)
      .execute();
  }
  for (const { clinic_id, stoma_id } of known.values()) {
    await trx
      .deleteFrom("stoma_row")
      .where("clinic_id", "=", clinic_id)
      .where("stoma_id", "=", stoma_id)
      .execute();
  }
}

/** The fit of a stoma but for whether it is to be made again. */
function fitOf(row: Kept<"stoma_row">) {
  const { fits_until_on, fits_until_lower_on, fits_until_upper_on, fit_program, fit_protocol } = row;
  return { fits_until_on, fits_until_lower_on, fits_until_upper_on, fit_program, fit_protocol };
}

/** Rows in one statement. */
const atOnce = 500;

/** A long log must not make each new change dearer. */
export async function writeWears(
  trx: Db,
  before: KeptRows["wears"],
  after: PersonRows["wears"],
): Promise<void> {
  const known = new Map(before.map((row) => [row.wear_id, row]));
  const kept = new Set<string>();
  const written = after.filter((row) => {
    const same = known.get(row.wear_id);
    if (!same || Object.keys(changedColumns(same, row)).length > 0) return true;
    kept.add(row.wear_id);
    return false;
  });
  const gone = before.filter((row) => !kept.has(row.wear_id));
  for (let from = 0; from < gone.length; from += atOnce) {
    const some = gone.slice(from, from + atOnce);
    await trx
      .deleteFrom("wear_row")
      .where("clinic_id", "=", some[0]!.clinic_id)
      .where(
        "wear_id",
        "in",
        some.map((row) => row.wear_id),
      )
      .execute();
  }
  for (let from = 0; from < written.length; from += atOnce) {
    await trx
      .insertInto("wear_row")
      .values(written.slice(from, from + atOnce))
      .execute();
  }
}

function changedColumns<Row extends object>(before: object, after: Row): Partial<Row> {
  const was = before as Record<string, unknown>;
  const differing = Object.entries(after).filter(([column, value]) => was[column] !== value);
  return Object.fromEntries(differing) as Partial<Row>;
}
