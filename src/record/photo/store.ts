import type { Kysely, Selectable } from "kysely";
import { v7 as uuidv7 } from "uuid";
import type { Keys } from "../keys/index.ts";
import { refuseErased } from "../store/erased.ts";
import { lockClinic } from "../store/lock.ts";
import type { RecordTables } from "../store/schema.ts";
import { transact } from "../store/transact.ts";
import { newPhotoKey, openPart, type PhotoPart, sealPart } from "./envelope.ts";
import { preparePhoto } from "./prepare.ts";
import type { PhotoTable } from "./tables.ts";

export interface NewPhoto {
  /** Made by whoever sends it, so that a photograph sent twice is kept once; a new one where it is left out. */
  photoId?: string;
  clinicId: string;
  personId: string;
  stomaId: string | null;
  /** The entry that was made from it, where there is one. */
  entryId?: string | null;
  /** As it was uploaded. */
  bytes: Uint8Array;
  /** When it was taken, as the nurse says: the photograph itself is not asked. */
  takenMs: number | null;
  nowMs?: number;
}

/** What lists say of a photograph without opening it. */
export interface PhotoFacts {
  photoId: string;
  personId: string;
  stomaId: string | null;
  entryId: string | null;
  takenMs: number | null;
  keptMs: number;
  widthPx: number;
  heightPx: number;
}

export interface OpenedPhoto extends PhotoFacts {
  /** JPEG. */
  bytes: Uint8Array;
}

const factColumns = [
  "photo_id",
  "person_id",
  "stoma_id",
  "entry_id",
  "taken_ms",
  "kept_ms",
  "width_px",
  "height_px",
] as const;

/** Photographs of a record: pixels alone, each sealed under a key of its own that only the record's keys open. */
export class PhotoStore {
  private readonly db: Kysely<RecordTables>;
  private readonly keys: () => Promise<Keys>;

  /** @param keys asked for at the first photograph: a record without photographs needs no keys */
  constructor(db: Kysely<RecordTables>, keys: () => Promise<Keys>) {
    this.db = db;
    this.keys = keys;
  }

  /**
   * Keeps a photograph; it is on disk when this resolves.
   * @throws {InputError} for anything that is no photograph, see {@link preparePhoto}
   * @throws {KeyFault}
   * @throws {ErasedError} where the person was erased
   */
  async keep({
    photoId = uuidv7(),
    clinicId,
    personId,
    stomaId,
    entryId,
    bytes,
    takenMs,
    nowMs,
  }: NewPhoto): Promise<string> {
    const { thumbnail, ...picture } = await preparePhoto(bytes);
    const keys = await this.keys();
    const owner = { clinicId, personId, photoId };
    const key = newPhotoKey();
    const sealedKey = await keys.seal(key);
    await transact(this.db, async (trx) => {
      await lockClinic(trx, clinicId);
      await refuseErased(trx, [owner]);
      await trx
        .insertInto("photo")
        .values({
          photo_id: owner.photoId,
          clinic_id: clinicId,
          person_id: personId,
          stoma_id: stomaId,
          entry_id: entryId ?? null,
          taken_ms: takenMs,
          kept_ms: nowMs ?? Date.now(),
          width_px: picture.widthPx,
          height_px: picture.heightPx,
          sealed_for: keys.sealedFor(),
          sealed_key: Buffer.from(sealedKey),
          thumbnail: sealPart(key, owner, "thumbnail", thumbnail.bytes),
          picture: sealPart(key, owner, "picture", picture.bytes),
        })
        .onConflict((conflict) => conflict.columns(["clinic_id", "photo_id"]).doNothing())
        .execute();
    });
    return photoId;
  }

  /** A photograph; null when this clinic has none of that id. @throws {KeyFault} when it cannot be opened */
  async open(clinicId: string, photoId: string): Promise<OpenedPhoto | null> {
    return this.openOne(clinicId, photoId, "picture");
  }

  /** The small one of the same photograph; its width and height are those of the large one. */
  async openThumbnail(clinicId: string, photoId: string): Promise<OpenedPhoto | null> {
    return this.openOne(clinicId, photoId, "thumbnail");
  }

  /** A person's photographs, latest kept first. */
  async list(clinicId: string, personId: string): Promise<PhotoFacts[]> {
    const rows = await this.db
      .selectFrom("photo")
      .select(factColumns)
      .where("clinic_id", "=", clinicId)
      .where("person_id", "=", personId)
      .orderBy("photo_id", "desc")
      .execute();
    return rows.map(factsOf);
  }

  /** Deletes a photograph with its small one and its key; false when there was none. */
  async remove(clinicId: string, photoId: string): Promise<boolean> {
    const { numDeletedRows } = await this.db
      .deleteFrom("photo")
      .where("clinic_id", "=", clinicId)
      .where("photo_id", "=", photoId)
      .executeTakeFirst();
    return numDeletedRows > 0n;
  }

  private async openOne(clinicId: string, photoId: string, part: PhotoPart): Promise<OpenedPhoto | null> {
    const row = await this.db
      .selectFrom("photo")
      .select([...factColumns, "sealed_key", part])
      .where("clinic_id", "=", clinicId)
      .where("photo_id", "=", photoId)
      .executeTakeFirst();
    if (!row) return null;
    const keys = await this.keys();
    const key = await keys.unseal(row.sealed_key);
    const sealed = (row as unknown as Record<PhotoPart, Uint8Array>)[part];
    const owner = { clinicId, personId: row.person_id, photoId };
    return { ...factsOf(row), bytes: openPart(key, owner, part, sealed) };
  }
}

function factsOf(row: Pick<Selectable<PhotoTable>, (typeof factColumns)[number]>): PhotoFacts {
  return {
    photoId: row.photo_id,
    personId: row.person_id,
    stomaId: row.stoma_id,
    entryId: row.entry_id,
    takenMs: row.taken_ms === null ? null : Number(row.taken_ms),
    keptMs: Number(row.kept_ms),
    widthPx: Number(row.width_px),
    heightPx: Number(row.height_px),
  };
}
