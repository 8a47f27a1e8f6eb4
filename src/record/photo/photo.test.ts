import { readFileSync } from "node:fs";
import { sql } from "kysely";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Bench, cameraPhoto, keepPhoto, keptRecord, newBench } from "../../../test/record/kept.ts";
import { clinicId } from "../../../test/record/samples.ts";
import type { OpenRecord } from "../open/index.ts";
import { openPart, sealPart } from "./envelope.ts";

let bench: Bench;
let record: OpenRecord;
let personId: string;
beforeAll(async () => {
  bench = newBench();
  ({ record, personId } = await keptRecord(bench));
});
afterAll(async () => {
  await record.close();
  bench.remove();
});

const otherClinic = "5b1f0a9e-3b7c-4f86-9a64-8e2b7c5d9f01";

describe("a photograph in the record", () => {
  it("opens for its clinic, large and small, with the facts that were written beside it", async () => {
    const photoId = await record.photos.keep({
      clinicId,
      personId,
      stomaId: "stoma",
      entryId: "entry",
      bytes: await cameraPhoto(2000, 1500),
      takenMs: 1_764_000_000_000,
      nowMs: 1_764_000_100_000,
    });
    const facts = {
      photoId,
      personId,
      stomaId: "stoma",
      entryId: "entry",
      takenMs: 1_764_000_000_000,
      keptMs: 1_764_000_100_000,
      widthPx: 1600,
      heightPx: 1200,
    };
    const { bytes, ...opened } = (await record.photos.open(clinicId, photoId))!;
    expect(opened).toEqual(facts);
    expect(await sharp(bytes).metadata()).toMatchObject({ format: "jpeg", width: 1600, height: 1200 });
    const small = (await record.photos.openThumbnail(clinicId, photoId))!;
    expect(await sharp(small.bytes).metadata()).toMatchObject({ width: 240, height: 180 });
    expect(await record.photos.list(clinicId, personId)).toContainEqual(facts);
  });

  it("is not there for another clinic, not even to be deleted", async () => {
    const photoId = await keepPhoto(record, personId);
    expect(await record.photos.open(otherClinic, photoId)).toBeNull();
    expect(await record.photos.openThumbnail(otherClinic, photoId)).toBeNull();
    expect(await record.photos.list(otherClinic, personId)).toEqual([]);
    expect(await record.photos.remove(otherClinic, photoId)).toBe(false);
    expect(await record.photos.open(clinicId, photoId)).not.toBeNull();
  });

  it("lies sealed: no JPEG is found in what is on disk", async () => {
    await keepPhoto(record, personId);
    await sql`pragma wal_checkpoint(truncate)`.execute(record.db);
    const file = readFileSync(bench.path("clinic", "record.sqlite"));
    expect(file.includes(Buffer.from("JFIF"))).toBe(false);
    expect(file.includes(Buffer.from("ffd8ffe0", "hex"))).toBe(false);
  });

  it("does not open when its row is given to somebody else, or its parts are exchanged", async () => {
    const [first, second] = [await keepPhoto(record, personId), await keepPhoto(record, personId)];
    const fails = async (photoId: string) => {
      await expect(record.photos.open(clinicId, photoId)).rejects.toMatchObject({ code: "damaged" });
    };
    const rows = () => record.db.updateTable("photo").where("photo_id", "=", first);
    await rows().set({ person_id: "somebody else" }).execute();
    await fails(first);
    await rows().set({ person_id: personId }).execute();
    expect(await record.photos.open(clinicId, first)).not.toBeNull();
    const { sealed_key, picture } = await record.db
      .selectFrom("photo")
      .select(["sealed_key", "picture"])
      .where("photo_id", "=", second)
      .executeTakeFirstOrThrow();
    await rows().set({ sealed_key, picture }).execute();
    await fails(first);
    await rows().set({ picture: sql`thumbnail` }).execute();
    await fails(first);
    await record.photos.remove(clinicId, first);
  });

  it("is deleted with its small one and its key", async () => {
    const photoId = await keepPhoto(record, personId);
    expect(await record.photos.remove(clinicId, photoId)).toBe(true);
    expect(await record.photos.open(clinicId, photoId)).toBeNull();
    expect(await record.photos.remove(clinicId, photoId)).toBe(false);
  });
});

describe("the seal of one part", () => {
  const owner = { clinicId, personId: "p", photoId: "f" };
  const key = new Uint8Array(32).fill(7);
  const bytes = new TextEncoder().encode("pixels");

  it("differs each time, and opens with the same key, owner and part alone", () => {
    const [once, twice] = [sealPart(key, owner, "picture", bytes), sealPart(key, owner, "picture", bytes)];
    expect(Buffer.from(once).equals(twice)).toBe(false);
    expect(openPart(key, owner, "picture", once)).toEqual(bytes);
    const wrong = [
      () =>
        openPart(
          key.map((byte) => byte ^ 1),
          owner,
          "picture",
          once,
        ),
      () => openPart(key, { ...owner, personId: "q" }, "picture", once),
      () => openPart(key, owner, "thumbnail", once),
      () => openPart(key, owner, "picture", once.subarray(0, 20)),
      () => openPart(key, owner, "picture", new Uint8Array()),
    ];
    for (const open of wrong) expect(open).toThrow(/damaged/);
  });

  it("breaks with any one bit", () => {
    const sealed = sealPart(key, owner, "picture", bytes);
    for (let at = 0; at < sealed.length; at += 1) {
      const changed = sealed.map((byte, index) => (index === at ? byte ^ 0x80 : byte));
      expect(() => openPart(key, owner, "picture", changed)).toThrow(/damaged/);
    }
  });
});
