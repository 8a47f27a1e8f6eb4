import type { Entry } from "../entry/index.ts";
import type { Alongside } from "../store/index.ts";

/**
 * Deletes the photographs of everybody who takes back that they are kept, in the transaction that writes it down:
 * there is no moment at which the record says no and still has them.
 */
export const photosWithdrawn: Alongside = (entries) => async (trx) => {
  for (const { clinicId, personId } of entries.filter(takesBack)) {
    await trx
      .deleteFrom("photo")
      .where("clinic_id", "=", clinicId)
      .where("person_id", "=", personId)
      .execute();
  }
};

function takesBack(entry: Entry): boolean {
  return entry.kind === "consented" && !entry.body.given && entry.body.purposes.includes("keep");
}
