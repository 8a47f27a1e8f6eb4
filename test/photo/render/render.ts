import { card } from "../../../src/domain/frame-card/index.ts";
import { rayOf, standsAt } from "../../../src/domain/photo/mapping/camera.ts";
import { lengthOf, scaled, type Vector } from "../../../src/domain/photo/mapping/rotation.ts";
import { inSpace, whereMet } from "../../../src/domain/photo/mapping/surface.ts";
import type { Pixels } from "../../../src/domain/photo/picture/pixels.ts";
import { developed } from "./develop.ts";
import type { Scene } from "./scene.ts";
import { cardAt, lightFrom, type Thing } from "./shade.ts";
import { at, baseRadius, nearStoma, stomaMet } from "./solid.ts";

/** Paper on skin. */
const paperMm = 0.25;
/** Skin and room far from the card are drawn in squares of so many pixels. */
const block = 8;
/** Rays a side through a pixel in which more than one thing is seen. */
const fine = 4;

/** Takes the photograph. */
export function render(scene: Scene): Pixels {
  const { width, height } = scene;
  const light = new Float32Array(3 * width * height);
  const things = new Uint8Array(width * height);
  for (let top = 0; top < height; top += block) {
    for (let left = 0; left < width; left += block) {
      const middle = isFarFromCard(scene, left, top) ? met(scene, left + block / 2, top + block / 2) : null;
      const even = middle && lightFrom(scene, middle.thing, middle.place);
      for (let y = top; y < Math.min(height, top + block); y++) {
        for (let x = left; x < Math.min(width, left + block); x++) {
          const { thing, place } = middle ?? met(scene, x, y);
          const pixel = y * width + x;
          things[pixel] = thingCodes[thing];
          light.set(even ?? lightFrom(scene, thing, place), 3 * pixel);
        }
      }
    }
  }
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const pixel = y * width + x;
      if (!isBorder(things, pixel, width)) continue;
      light.set(meanLight(scene, x, y), 3 * pixel);
    }
  }
  return developed(scene, light);
}

function isFarFromCard({ view }: Scene, left: number, top: number): boolean {
  return [0, block].every((dx) =>
    [0, block].every((dy) => {
      const ray = rayOf(view.camera, [left + dx, top + dy]);
      const place = whereMet(view.surface, standsAt(view.camera), ray);
      return place === null || Math.max(Math.abs(place[0]), Math.abs(place[1])) > 72;
    }),
  );
}

const thingCodes: Record<Thing, number> = { skin: 0, paper: 1, ink: 2, stoma: 3, room: 4 };

function isBorder(things: Uint8Array, pixel: number, width: number): boolean {
  const thing = things[pixel];
  for (const off of [-1, 1, -width, width, -width - 1, -width + 1, width - 1, width + 1]) {
    if (things[pixel + off] !== thing) return true;
  }
  return false;
}

function meanLight(scene: Scene, x: number, y: number): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  for (let row = 0; row < fine; row++) {
    for (let column = 0; column < fine; column++) {
      const { thing, place } = met(scene, x + (column + 0.5) / fine - 0.5, y + (row + 0.5) / fine - 0.5);
      lightFrom(scene, thing, place).forEach((value, k) => {
        sum[k]! += value / (fine * fine);
      });
    }
  }
  return sum;
}

function met(scene: Scene, x: number, y: number): { thing: Thing; place: Vector } {
  const { view, stoma } = scene;
  const from = standsAt(view.camera);
  const ray = rayOf(view.camera, [x, y]);
  const along = scaled(ray, 1 / lengthOf(ray));
  const skin = whereMet(view.surface, from, along);
  const stomaReach = nearStoma(view, stoma, from, along);
  if (stomaReach) {
    const reach = stomaMet(view, stoma, from, along, ...stomaReach);
    if (reach !== null) return { thing: "stoma", place: at(from, along, reach) };
  }
  if (skin === null || Math.hypot(...skin) > 260) return { thing: "room", place: [0, 0, 0] };
  const place = inSpace(view.surface, skin);
  // The card lies a sheet's thickness above the skin.
  const lifted = shifted(scene, from, along);
  const onCard = lifted && cardAt(scene, lifted);
  if (onCard) return { thing: onCard, place: inSpace(view.surface, lifted, paperMm) };
  return { thing: "skin", place };
}

/** Where the ray meets the paper's upper side, in card coordinates. */
function shifted({ view }: Scene, from: Vector, along: Vector): readonly [number, number] | null {
  const { bendPerMm, acrossRad } = view.surface;
  const radius = bendPerMm === 0 ? 0 : 1 / bendPerMm + paperMm;
  const surface = { bendPerMm: bendPerMm === 0 ? 0 : 1 / radius, acrossRad };
  const place = whereMet(surface, [from[0], from[1], from[2] - paperMm], along);
  return place && Math.max(Math.abs(place[0]), Math.abs(place[1])) < card.sideMm ? place : null;
}

/** The truth: the base on the skin, in card coordinates. */
export function baseOutline({ stoma }: Scene): [number, number][] {
  return Array.from({ length: 360 }, (_, degree) => {
    const angle = (degree * Math.PI) / 180;
    const radius = baseRadius(stoma, angle);
    return [stoma.middle[0] + radius * Math.cos(angle), stoma.middle[1] + radius * Math.sin(angle)];
  });
}
