/** Writes rendered photographs with their truth: npx tsx test/photo/render/write.ts FOLDER [first seed] [how many] */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { measureOutline } from "../../../src/domain/outline/index.ts";
import { poseOf } from "../../../src/domain/photo/mapping/place.ts";
import { baseOutline, render } from "./render.ts";
import { sceneOf } from "./scene.ts";

const [folder = "rendered", first = "1", count = "12"] = process.argv.slice(2);
mkdirSync(folder, { recursive: true });
for (let seed = Number(first); seed < Number(first) + Number(count); seed++) {
  const scene = sceneOf(seed);
  const { width, height, data } = render(scene);
  const name = join(folder, String(seed).padStart(5, "0"));
  const raw = { width, height, channels: 4 as const };
  await sharp(data, { raw }).jpeg({ quality: scene.jpegQuality }).toFile(`${name}.jpg`);
  const { outline, areaMm2, equivalentDiameterMm } = measureOutline({ outline: baseOutline(scene) });
  const { tiltDeg, distanceMm } = poseOf(scene.view);
  const truth = {
    tags: scene.tags,
    baseOutlineMm: outline,
    areaMm2,
    equivalentDiameterMm,
    heightMm: scene.stoma.heightMm,
    overhang: scene.stoma.overhang,
    camera: { tiltDeg, distanceMm },
  };
  writeFileSync(`${name}.json`, JSON.stringify(truth));
}
