import type { Kysely } from "kysely";
import { KeyFault, type Keys, type Resealed } from "../keys/index.ts";
import type { Progress } from "../store/index.ts";
import type { RecordTables } from "../store/schema.ts";

type Db = Kysely<RecordTables>;

const photosALook = 50;

/**
 * Seals the keys of the photographs anew, where they are sealed for other recipients than the present ones. The
 * photographs themselves are not touched. Stops between two when told to; called again it goes on from there.
 */
export async function resealPhotos(
  db: Db,
  keys: Keys,
  { onProgress, signal }: { onProgress?: Progress; signal?: AbortSignal } = {},
): Promise<Resealed> {
  await keys.follow();
  const total = await countStale(db, keys);
  const resealed: Resealed = { done: 0, failed: 0 };
  let last = { clinic_id: "", photo_id: "" };
  while (true) {
    const rows = await staleAfter(db, keys, last);
    if (rows.length === 0) return resealed;
    for (const row of rows) {
      signal?.throwIfAborted();
      if (await resealOne(db, keys, row)) resealed.done += 1;
      else resealed.failed += 1;
      onProgress?.(resealed.done + resealed.failed, total);
    }
    last = rows.at(-1)!;
  }
}

/** How many photographs are sealed for other recipients than the present ones. */
export async function countStale(db: Db, keys: Keys): Promise<number> {
  const { photos } = await db
    .selectFrom("photo")
    .select(({ fn }) => fn.countAll<number>().as("photos"))
    .where("sealed_for", "!=", keys.sealedFor())
    .executeTakeFirstOrThrow();
  return Number(photos);
}

interface SealedRow {
  clinic_id: string;
  photo_id: string;
  sealed_key: Uint8Array;
}

function staleAfter(
  db: Db,
  keys: Keys,
  { clinic_id, photo_id }: Pick<SealedRow, "clinic_id" | "photo_id">,
): Promise<SealedRow[]> {
  return db
    .selectFrom("photo")
    .select(["clinic_id", "photo_id", "sealed_key"])
    .where("sealed_for", "!=", keys.sealedFor())
    .where(({ eb, refTuple, tuple }) =>
      eb(refTuple("clinic_id", "photo_id"), ">", tuple(clinic_id, photo_id)),
    )
    .orderBy("clinic_id")
    .orderBy("photo_id")
    .limit(photosALook)
    .execute();
}

/** One that nobody can open is left as it is: a check finds it, and a backup may still have it whole. */
async function resealOne(
  db: Db,
  keys: Keys,
  { clinic_id, photo_id, sealed_key }: SealedRow,
): Promise<boolean> {
  try {
    const sealed = Buffer.from(await keys.seal(await keys.unseal(sealed_key)));
    await db
      .updateTable("photo")
      .set({ sealed_key: sealed, sealed_for: keys.sealedFor() })
      .where("clinic_id", "=", clinic_id)
      .where("photo_id", "=", photo_id)
      .execute();
    return true;
  } catch (error) {
    if (error instanceof KeyFault && (error.code === "wrongKey" || error.code === "damaged")) return false;
    throw error;
  }
}
