import sharp from "sharp";
import { v7 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { cameraPhoto } from "../../../test/record/kept.ts";
import { clinicEntry, clinicId, draft, entry, samplePerson } from "../../../test/record/samples.ts";
import { type TestBench, testBench } from "../../../test/server/bench.ts";
import type { BodyOf } from "../../record/entry/index.ts";

const person = samplePerson();
const other = samplePerson({ name: "Bram Oyelaran" });
const { personId } = person;
const answer = (given: boolean): BodyOf<"consented"> => ({
  about: "photographs",
  purposes: ["keep"],
  given,
  how: "spoken",
  by: "person",
});
const agreed = entry("consented", answer(true), { personId });

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench([clinicEntry(), ...person.entries, ...other.entries, agreed]);
});
afterEach(() => bench.close());

const place = (photoId: string, of = person) =>
  `/api/people/${of.personId}/stomas/${of.stomaId}/photos/${photoId}`;
const photos = () => bench.record.photos.list(clinicId, personId);

describe("a photograph", () => {
  it("is kept with the person's agreement, and comes back as pixels alone", async () => {
    const photoId = v7();
    const file = await sharp(await cameraPhoto())
      .withExif({ IFD0: { Copyright: "Edda Voss" } })
      .jpeg()
      .toBuffer();
    const { status } = await bench.upload(place(photoId), file, {}, "PUT");
    expect(status).toBe(204);
    const back = await bench.get(`/api/people/${personId}/photos/${photoId}`);
    expect([back.status, back.headers["content-type"], back.headers["cache-control"]]).toEqual([
      200,
      "image/jpeg",
      "no-store",
    ]);
    expect((await sharp(back.bytes).metadata()).exif).toBeUndefined();
    expect(back.bytes.includes("Edda Voss")).toBe(false);
    const small = await bench.get(`/api/people/${personId}/photos/${photoId}/small`);
    expect((await sharp(small.bytes).metadata()).width).toBeLessThanOrEqual(240);
  });

  it("sent twice with one id is kept once", async () => {
    const photoId = v7();
    const file = await cameraPhoto();
    for (const _ of [1, 2]) expect((await bench.upload(place(photoId), file, {}, "PUT")).status).toBe(204);
    expect(await photos()).toHaveLength(1);
  });

  it("of somebody who did not agree is refused, and nothing is kept", async () => {
    const { status, json } = await bench.upload(place(v7(), other), await cameraPhoto(), {}, "PUT");
    expect([status, json.error.code]).toEqual([409, "photoNotAgreed"]);
    expect(await bench.record.photos.list(clinicId, other.personId)).toEqual([]);
  });

  it("that is none is refused by what it is", async () => {
    const { status, json } = await bench.upload(place(v7()), "<svg onload='x()'/>", {}, "PUT");
    expect([status, json.error.faults[0].path]).toEqual([422, "file"]);
  });

  it("asked for under another person is not there", async () => {
    const photoId = v7();
    await bench.upload(place(photoId), await cameraPhoto(), {}, "PUT");
    const { status, json } = await bench.get(`/api/people/${other.personId}/photos/${photoId}`);
    expect([status, json.error.code]).toEqual([404, "noSuchPhoto"]);
  });

  it("deleted is gone", async () => {
    const photoId = v7();
    await bench.upload(place(photoId), await cameraPhoto(), {}, "PUT");
    expect((await bench.delete(`/api/people/${personId}/photos/${photoId}`, {})).status).toBe(204);
    expect((await bench.get(`/api/people/${personId}/photos`)).json).toEqual({ photos: [] });
  });
});

describe("agreement taken back", () => {
  it("deletes what was kept, in the same step, and lets nothing more in", async () => {
    await bench.upload(place(v7()), await cameraPhoto(), {}, "PUT");
    const taken = draft("consented", answer(false), { personId });
    expect((await bench.post("/api/entries", { entries: [taken] })).status).toBe(201);
    expect(await photos()).toEqual([]);
    expect((await bench.upload(place(v7()), await cameraPhoto(), {}, "PUT")).status).toBe(409);
  });

  it("for teaching alone leaves what is kept to compare", async () => {
    await bench.upload(place(v7()), await cameraPhoto(), {}, "PUT");
    const taken = draft("consented", { ...answer(false), purposes: ["teach"] }, { personId });
    await bench.post("/api/entries", { entries: [taken] });
    expect(await photos()).toHaveLength(1);
  });
});
