import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { type OpenRecord, openRecord } from "../../src/record/open/index.ts";
import { clinicEntry, clinicId, entry, round, samplePerson } from "./samples.ts";

/** A folder for one test, with a place for the record and one for its key file. */
export interface Bench {
  folder: string;
  dataDir: string;
  keyFile: string;
  path(...parts: string[]): string;
  remove(): void;
}

export function newBench(): Bench {
  const folder = mkdtempSync(join(tmpdir(), "roundel-kept-"));
  const path = (...parts: string[]) => join(folder, ...parts);
  return {
    folder,
    dataDir: path("clinic"),
    keyFile: path("settings", "record.key"),
    path,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** An invented person with readings, in a record on disk. */
export async function keptRecord(bench: Pick<Bench, "dataDir" | "keyFile">): Promise<{
  record: OpenRecord;
  personId: string;
  stomaId: string;
}> {
  const record = await openRecord(bench);
  const person = samplePerson();
  await record.store.append([clinicEntry(), ...person.entries]);
  await record.store.append([30, 31, 32].map((mm) => entry("measured", round(mm), person.about)));
  return { record, personId: person.personId, stomaId: person.about.stomaId! };
}

/** A photograph as a camera would send it. */
export function cameraPhoto(widthPx = 800, heightPx = 600): Promise<Buffer> {
  return sharp({
    create: { width: widthPx, height: heightPx, channels: 3, background: { r: 196, g: 96, b: 88 } },
  })
    .jpeg()
    .toBuffer();
}

export async function keepPhoto(record: OpenRecord, personId: string, inClinic = clinicId): Promise<string> {
  return record.photos.keep({
    clinicId: inClinic,
    personId,
    stomaId: null,
    bytes: await cameraPhoto(),
    takenMs: null,
  });
}

/** Everything that lies in a folder, to tell whether anything changed. */
export function contentOf(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .sort()
    .map(
      (name) =>
        `${name} ${createHash("sha256")
          .update(readFileSync(join(folder, name)))
          .digest("hex")}`,
    );
}
