import type { Kysely } from "kysely";
import type { RecordTables } from "../store/schema.ts";

/**
 * Which clinic people and stomas belong to, where several keep their records in one database. Ids are a clinic's own:
 * what another clinic has under the same id is somebody else.
 */
export class Belonging {
  private readonly db: Kysely<RecordTables>;

  constructor(db: Kysely<RecordTables>) {
    this.db = db;
  }

  /** Whether the clinic has written anything about this person. */
  async hasPerson(clinicId: string, personId: string): Promise<boolean> {
    return (await this.entriesOf(clinicId, personId).executeTakeFirst()) !== undefined;
  }

  /** Whether the clinic has written anything about this stoma of this person. */
  async hasStoma(clinicId: string, personId: string, stomaId: string): Promise<boolean> {
    const row = await this.entriesOf(clinicId, personId).where("stoma_id", "=", stomaId).executeTakeFirst();
    return row !== undefined;
  }

  /** Whether the clinic keeps this photograph of this person. */
  async hasPhoto(clinicId: string, personId: string, photoId: string): Promise<boolean> {
    const row = await this.db
      .selectFrom("photo")
      .select("photo_id")
      .where("clinic_id", "=", clinicId)
      .where("photo_id", "=", photoId)
      .where("person_id", "=", personId)
      .executeTakeFirst();
    return row !== undefined;
  }

  private entriesOf(clinicId: string, personId: string) {
    return this.db
      .selectFrom("entry")
      .select("id")
      .where("clinic_id", "=", clinicId)
      .where("person_id", "=", personId)
      .limit(1);
  }
}
