import { encodedOf } from "../../../src/domain/photo/colour/srgb.ts";
import type { Pixels } from "../../../src/domain/photo/picture/pixels.ts";
import { chanceOf } from "./chance.ts";
import type { Scene } from "./scene.ts";

/** Bytes of lights from 0 to 1, in fine steps. */
const finest = 16383;
const encoded = Float32Array.from({ length: finest + 1 }, (_, step) => 255 * encodedOf(step / finest));

/** Lens, shutter and sensor: blur, motion, falling off to the corners, grain, white balance, and the sRGB curve. */
export function developed(scene: Scene, light: Float32Array): Pixels {
  const { width, height } = scene;
  const data = new Uint8ClampedArray(4 * width * height).fill(255);
  const chance = chanceOf(scene.seed + 90210);
  const grain = Float32Array.from({ length: 65536 }, () => chance.normal(0, 1));
  for (let channel = 0; channel < 3; channel++) {
    let plane = Float32Array.from({ length: width * height }, (_, at) => light[3 * at + channel]!);
    plane = moved(softened(plane, width, height, scene.blurPx), width, height, scene.motionPx);
    for (let at = 0; at < plane.length; at++) {
      const [dx, dy] = [((at % width) - width / 2) / width, (Math.floor(at / width) - height / 2) / width];
      const lens = 1 - 0.35 * (dx * dx + dy * dy);
      const value = plane[at]! * scene.exposure * scene.balance[channel]! * lens;
      const noise = grain[(Math.imul(at * 3 + channel, 2654435761) >>> 8) & 65535]! * scene.grain;
      const noisy = value + noise * Math.sqrt(Math.max(0, value) + 0.02);
      data[4 * at + channel] = encoded[Math.min(finest, Math.max(0, Math.round(finest * noisy)))]!;
    }
  }
  return { width, height, data };
}

function softened(
  plane: Float32Array,
  width: number,
  height: number,
  spreadPx: number,
): Float32Array<ArrayBuffer> {
  const half = Math.ceil(3 * spreadPx);
  const kernel = Array.from({ length: 2 * half + 1 }, (_, k) =>
    Math.exp(-((k - half) ** 2) / (2 * spreadPx ** 2)),
  );
  const sum = kernel.reduce((total, value) => total + value, 0);
  const along = kernel.map((value, k) => ({ dx: k - half, dy: 0, share: value / sum }));
  const down = along.map(({ dx, share }) => ({ dx: 0, dy: dx, share }));
  return folded(folded(plane, width, height, along), width, height, down);
}

function moved(
  plane: Float32Array<ArrayBuffer>,
  width: number,
  height: number,
  [mx, my]: readonly [number, number],
) {
  const steps = Math.ceil(Math.hypot(mx, my));
  if (steps === 0) return plane;
  const taps = Array.from({ length: steps + 1 }, (_, k) => ({
    dx: Math.round((k / steps - 0.5) * mx),
    dy: Math.round((k / steps - 0.5) * my),
    share: 1 / (steps + 1),
  }));
  return folded(plane, width, height, taps);
}

function folded(
  plane: Float32Array,
  width: number,
  height: number,
  taps: readonly { dx: number; dy: number; share: number }[],
): Float32Array<ArrayBuffer> {
  const result = new Float32Array(plane.length);
  for (const { dx, dy, share } of taps) {
    for (let y = 0; y < height; y++) {
      const from = Math.min(height - 1, Math.max(0, y + dy)) * width;
      for (let x = 0; x < width; x++) {
        const column = x + dx < 0 ? 0 : x + dx >= width ? width - 1 : x + dx;
        result[y * width + x]! += share * plane[from + column]!;
      }
    }
  }
  return result;
}
