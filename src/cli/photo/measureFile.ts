import { measurePhoto, type PhotoMeasurement, type Stage } from "../../domain/photo/index.ts";
import type { PhotoRequest } from "../../domain/photo/input.ts";
import { writeStages } from "./debug.ts";
import { decodePicture } from "./decode.ts";

/** A measurement with its file and how long each stage took. */
export interface MeasuredFile extends PhotoMeasurement {
  file: string;
  msTotal: number;
  msByStage: Record<string, number>;
}

/** Measures one file. @throws {Refusal} where it cannot be read as a picture */
export async function measureFile(
  { path, heightMm, cardScale }: PhotoRequest,
  debugFolder?: string,
): Promise<MeasuredFile> {
  const msByStage: Record<string, number> = {};
  const stages: Stage[] = [];
  const start = performance.now();
  let last = start;
  const done = (name: string) => {
    const now = performance.now();
    msByStage[name] = now - last;
    last = now;
  };
  const picture = await decodePicture(path);
  done("decode");
  const measurement = measurePhoto(picture, {
    heightMm,
    cardScale,
    onStage: (stage) => {
      done(stage.name);
      if (debugFolder !== undefined) stages.push(stage);
    },
  });
  const msTotal = performance.now() - start;
  if (debugFolder !== undefined) await writeStages(debugFolder, path, stages);
  return { file: path, ...measurement, msTotal, msByStage };
}
