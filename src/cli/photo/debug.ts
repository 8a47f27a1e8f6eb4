import { mkdir } from "node:fs/promises";
import { basename, extname, join } from "node:path";
import sharp from "sharp";
import type { Outline } from "../../domain/outline/index.ts";
import {
  inPatch,
  outlinePoints,
  type Patch,
  type Pixels,
  patchPicture,
  type Stage,
} from "../../domain/photo/index.ts";
import { Refusal } from "../ending.ts";
import { writeFile } from "../output/index.ts";

interface Drawn {
  name: string;
  picture: Pixels;
  /** Shapes over the picture, as SVG in its pixels. */
  over: string;
}

/** Writes a picture of each stage: NAME-1-markers.png and so on. @throws {Refusal} where the folder cannot be made */
export async function writeStages(folder: string, path: string, stages: readonly Stage[]): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 }).catch(() => {
    throw new Refusal(`The folder ${folder} cannot be made.`);
  });
  const name = basename(path, extname(path));
  for (const [at, drawn] of drawings(stages).entries()) {
    const png = await pngOf(drawn);
    await writeFile(join(folder, `${name}-${at + 1}-${drawn.name}.png`), [png]);
  }
}

function drawings(stages: readonly Stage[]): Drawn[] {
  const drawn: Drawn[] = [];
  let patch: Patch | null = null;
  for (const stage of stages) {
    if (stage.name === "markers") {
      const over = stage.markers.map(({ corners }) => polygon(corners, "lime", 2)).join("");
      drawn.push({ name: stage.name, picture: stage.picture, over });
    } else if (stage.name === "patch") {
      patch = stage.patch;
      drawn.push({ name: stage.name, picture: patchPicture(patch), over: "" });
    } else if (stage.name === "outline" && stage.silhouette && patch) {
      const over = onPatch(patch, outlinePoints(stage.silhouette), "lime");
      drawn.push({ name: stage.name, picture: likenessPicture(patch, stage.silhouette.likeness), over });
    } else if (stage.name === "base" && patch) {
      drawn.push({
        name: stage.name,
        picture: patchPicture(patch),
        over: onPatch(patch, stage.outline, "yellow"),
      });
    }
  }
  return drawn;
}

function onPatch(patch: Patch, outline: Outline, colour: string): string {
  return polygon(
    outline.map(([x, y]) => inPatch(patch, x, y)),
    colour,
    1,
  );
}

function polygon(points: readonly (readonly [number, number])[], colour: string, width: number): string {
  const corners = points.map(([x, y]) => `${(x + 0.5).toFixed(2)},${(y + 0.5).toFixed(2)}`).join(" ");
  return `<polygon points="${corners}" fill="none" stroke="${colour}" stroke-width="${width}"/>`;
}

/** White where the colour is like the stoma's, black where it is like the skin's. */
function likenessPicture({ side }: Patch, likeness: Float32Array): Pixels {
  const data = new Uint8ClampedArray(4 * side * side).fill(255);
  likeness.forEach((value, at) => {
    data.fill(128 + 50 * value, 4 * at, 4 * at + 3);
  });
  return { width: side, height: side, data };
}

async function pngOf({ picture: { width, height, data }, over }: Drawn): Promise<Uint8Array> {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">${over}</svg>`;
  return sharp(data, { raw: { width, height, channels: 4 } })
    .composite([{ input: Buffer.from(svg) }])
    .png()
    .toBuffer();
}
