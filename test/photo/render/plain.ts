import type { View } from "../../../src/domain/photo/mapping/fitView.ts";
import { product, rotationBy } from "../../../src/domain/photo/mapping/rotation.ts";
import { flat } from "../../../src/domain/photo/mapping/surface.ts";
import { type Scene, sceneOf } from "./scene.ts";

/** A scene without difficulties, small so that tests are quick: to make one thing wrong at a time. */
export function plainScene({ tiltDeg = 6 }: { tiltDeg?: number } = {}): Scene {
  const [width, height] = [1000, 750];
  const down = [1, 0, 0, 0, -1, 0, 0, 0, -1];
  const rotation = product(rotationBy((tiltDeg * Math.PI) / 180, 0, 0), down);
  const view: View = {
    camera: {
      focalPx: 0.8 * width,
      middlePx: [(width - 1) / 2, (height - 1) / 2],
      radial: 0,
      rotation,
      shiftMm: [0, 0, 230],
    },
    surface: flat,
  };
  const scene = sceneOf(1);
  return {
    ...scene,
    tags: ["plain"],
    width,
    height,
    view,
    skin: [0.52, 0.31, 0.2],
    mottle: 0.05,
    redness: { strength: 0.05, reachMm: new Array(8).fill(3) },
    spots: [],
    hairs: [],
    stoma: {
      ...scene.stoma,
      middle: [2, -1],
      radiusMm: 16,
      waves: [],
      heightMm: 8,
      steep: 2.8,
      full: 2.8,
      overhang: 0,
      lean: [0, 0],
      tipOff: [0, 0],
      colour: [0.5, 0.11, 0.1],
      shine: 0.2,
    },
    lamp: { to: [0.3, 0.2, 0.93], colour: [0.7, 0.7, 0.68], atCamera: false, size: 0.1 },
    ambient: [0.3, 0.3, 0.31],
    slope: [0, 0],
    exposure: 0.95,
    balance: [1, 1, 1],
    blurPx: 0.7,
    motionPx: [0, 0],
    grain: 0.006,
  };
}
