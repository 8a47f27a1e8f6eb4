import { KeyFault } from "../keys/index.ts";
import type { OpenRecord } from "../open/index.ts";
import type { Progress } from "../store/index.ts";
import type { Finding } from "./finding.ts";

const photosALook = 50;

/** Whether every photograph opens, large and small. */
export async function* checkPhotos(
  { db, photos }: Pick<OpenRecord, "db" | "photos">,
  clinicId: string,
  { onProgress, signal }: { onProgress?: Progress; signal?: AbortSignal } = {},
): AsyncGenerator<Finding> {
  const { total } = await db
    .selectFrom("photo")
    .select(({ fn }) => fn.countAll<number>().as("total"))
    .where("clinic_id", "=", clinicId)
    .executeTakeFirstOrThrow();
  let done = 0;
  let last = "";
  while (true) {
    const rows = await db
      .selectFrom("photo")
      .select("photo_id")
      .where("clinic_id", "=", clinicId)
      .where("photo_id", ">", last)
      .orderBy("photo_id")
      .limit(photosALook)
      .execute();
    if (rows.length === 0) return;
    for (const { photo_id } of rows) {
      signal?.throwIfAborted();
      const problem = await problemOf(photos, clinicId, photo_id);
      if (problem !== null) yield { part: "photographs", id: photo_id, problem };
      done += 1;
      onProgress?.(done, Number(total));
    }
    last = rows.at(-1)!.photo_id;
  }
}

async function problemOf(
  photos: OpenRecord["photos"],
  clinicId: string,
  photoId: string,
): Promise<string | null> {
  try {
    await photos.open(clinicId, photoId);
    await photos.openThumbnail(clinicId, photoId);
    return null;
  } catch (error) {
    if (!(error instanceof KeyFault)) throw error;
    return error.code === "wrongKey" ? "It is sealed for a key that is not in the key file." : error.message;
  }
}
