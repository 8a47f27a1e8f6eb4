import type { OpenRecord } from "../../record/open/index.ts";
import { interruptible, showProgress } from "../terminal/index.ts";

/** What a change of keys works on. Ctrl-C stops it between two photographs; the next change finishes it. */
export async function renewalOf({ db, keys: openKeys }: OpenRecord, progress: boolean | undefined) {
  const { resealPhotos } = await import("../../record/photo/index.ts");
  const keys = await openKeys();
  const reseal = async () => {
    const shown = showProgress("Sealing anew: photograph", progress);
    const done = await interruptible((signal) =>
      resealPhotos(db, keys, { onProgress: shown.onProgress, signal }),
    );
    shown.end();
    return done;
  };
  return { db, keys, reseal };
}

/** Writes into every clinic's trail that the keys were changed. */
export async function noteChange(record: OpenRecord): Promise<void> {
  const { note } = await import("../../record/carry/index.ts");
  await note(record, "changeKeys", Date.now());
}
