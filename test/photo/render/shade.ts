import { card } from "../../../src/domain/frame-card/index.ts";
import { standsAt } from "../../../src/domain/photo/mapping/camera.ts";
import { dot, lengthOf, minus, scaled, type Vector } from "../../../src/domain/photo/mapping/rotation.ts";
import { noiseAt } from "./chance.ts";
import type { Colour, Scene } from "./scene.ts";
import { baseRadius, beyondStoma, nearStoma, onSkin, stomaMet } from "./solid.ts";

/** What a ray meets. */
export type Thing = "skin" | "paper" | "ink" | "stoma" | "room";

/** Light that the skin, the card or the stoma sends to the camera from a place in space. */
export function lightFrom(scene: Scene, thing: Thing, place: Vector): Colour {
  if (thing === "room") return [0.42, 0.44, 0.45];
  const onIt = onSkin(scene.view, place);
  const normal = thing === "stoma" ? stomaNormal(scene, place) : skinNormal(scene, place);
  const colour = coloured(scene, thing, onIt);
  return lit(scene, thing, place, normal, colour);
}

function coloured(scene: Scene, thing: Thing, place: Vector): Colour {
  if (thing === "paper") return scene.paper;
  if (thing === "ink") return [0.035, 0.035, 0.037];
  if (thing === "skin" && Math.hypot(place[0], place[1]) > 95) return scene.skin;
  const base = thing === "skin" ? skinColour(scene, place) : mucosaColour(scene, place);
  return scene.spots.reduce((colour, spot) => {
    const off =
      Math.hypot(place[0] - spot.x, place[1] - spot.y) +
      1.1 * noiseAt(place[0] / 2, place[1] / 2, scene.seed + 7);
    const cover = spot.cover * smoothStep((spot.radiusMm - off) / 0.8 + 0.5);
    return mixed(colour, spot.colour, cover);
  }, base);
}

function skinColour(scene: Scene, [x, y]: Vector): Colour {
  const { stoma, redness, mottle, seed } = scene;
  const mottled = 1 + mottle * (noiseAt(x / 7, y / 7, seed) + 0.5 * noiseAt(x / 2.5, y / 2.5, seed + 1));
  const hair = hairAt(scene, x, y) ? 0.35 : 1;
  const [dx, dy] = [x - stoma.middle[0], y - stoma.middle[1]];
  const angle = Math.atan2(dy, dx);
  const off = Math.max(0, Math.hypot(dx, dy) - baseRadius(stoma, angle));
  const side = ((angle / (2 * Math.PI) + 1) % 1) * 8;
  const [a, b] = [redness.reachMm[Math.floor(side)]!, redness.reachMm[(Math.floor(side) + 1) % 8]!];
  const reach = a + (b - a) * (side - Math.floor(side));
  const red =
    redness.strength * Math.exp(-((off / reach) ** 2)) * (1 + 0.3 * noiseAt(x / 3, y / 3, seed + 2));
  // Blood in the skin takes green most and blue nearly as much.
  const absorbed = [1 - 0.12 * red, 1 - 0.55 * red, 1 - 0.5 * red];
  return scene.skin.map((value, k) => value * mottled * hair * absorbed[k]!) as unknown as Colour;
}

function hairAt({ hairs }: Scene, x: number, y: number): boolean {
  for (const hair of hairs) {
    const [dx, dy] = [x - hair.x, y - hair.y];
    if (dx * dx + dy * dy > 40) continue;
    const [c, s] = [Math.cos(hair.turn), Math.sin(hair.turn)];
    const along = dx * c + dy * s;
    if (Math.abs(along) < 6 && Math.abs(dy * c - dx * s - hair.curve * along * along) < 0.06) return true;
  }
  return false;
}

function mucosaColour(scene: Scene, place: Vector): Colour {
  const { stoma, seed } = scene;
  const { fold, deep } = foldsAt(scene, place);
  const grain = 1 + 0.06 * noiseAt(place[0] * 1.3, place[1] * 1.3 + place[2], seed + 3);
  const dark = grain * (1 - 0.3 * stoma.foldDepth * (1 - fold)) * (1 - 0.75 * deep);
  return stoma.colour.map((value) => value * dark) as unknown as Colour;
}

/** Folds run from the tip outward, with a swirl; `deep` is 1 in the tip. */
function foldsAt({ stoma }: Scene, [x, y, z]: Vector): { fold: number; deep: number } {
  const dx = x - stoma.middle[0] - stoma.lean[0] * z - stoma.tipOff[0];
  const dy = y - stoma.middle[1] - stoma.lean[1] * z - stoma.tipOff[1];
  const far = Math.hypot(dx, dy) / stoma.radiusMm;
  const fold = 0.5 + 0.5 * Math.cos(stoma.folds * (Math.atan2(dy, dx) + stoma.swirl * far));
  return { fold, deep: Math.exp(-((far / 0.13) ** 2)) };
}

function lit(scene: Scene, thing: Thing, place: Vector, normal: Vector, colour: Colour): Colour {
  const { lamp, ambient, slope, stoma } = scene;
  const eye = standsAt(scene.view.camera);
  const toEye = unit(minus(eye, place));
  const away = lengthOf(minus(eye, place));
  const toLamp = lamp.atCamera ? toEye : (lamp.to as Vector);
  const falling = lamp.atCamera ? (300 / away) ** 2 : 1 + (slope[0] * place[0] + slope[1] * place[1]) / 100;
  const facing = Math.max(0, dot(normal, toLamp));
  const seen = facing > 0 && !lamp.atCamera ? lampSeen(scene, place, normal) : facing > 0 ? 1 : 0;
  const open = openness(scene, thing, place, normal);
  const half = unit([toLamp[0] + toEye[0], toLamp[1] + toEye[1], toLamp[2] + toEye[2]]);
  const gloss = thing === "stoma" ? stoma.shine * 0.9 * Math.max(0, dot(normal, half)) ** 90 : 0;
  return colour.map((value, k) => {
    const straight = lamp.colour[k]! * falling * seen;
    return value * (straight * facing + ambient[k]! * open) + gloss * straight;
  }) as unknown as Colour;
}

/** Share of the lamp that is seen from a place past the stoma, from four points of the lamp. */
function lampSeen(scene: Scene, place: Vector, normal: Vector): number {
  const { lamp, view, stoma } = scene;
  const near = onSkin(view, place);
  if (
    Math.hypot(near[0] - stoma.middle[0], near[1] - stoma.middle[1]) >
    stoma.radiusMm + 3 * stoma.heightMm + 3
  )
    return 1;
  const start: Vector = [place[0] + 0.7 * normal[0], place[1] + 0.7 * normal[1], place[2] + 0.7 * normal[2]];
  let free = 0;
  for (const [a, b] of lampPoints) {
    const to = unit([lamp.to[0] + a * lamp.size, lamp.to[1] + b * lamp.size, lamp.to[2]]);
    const stretch = nearStoma(view, stoma, start, to);
    const [from, past] = stretch ?? [0, -1];
    if (past < 0 || stomaMet(view, stoma, start, to, Math.max(0, from), past, 1) === null) free += 1;
  }
  return free / lampPoints.length;
}

const lampPoints = [
  [-0.5, -0.5],
  [0.5, -0.5],
  [-0.5, 0.5],
  [0.5, 0.5],
] as const;

/** How much of the room a place sees: less beside the stoma's wall. */
function openness({ view, stoma }: Scene, thing: Thing, place: Vector, normal: Vector): number {
  if (thing === "stoma") return 0.6 + 0.4 * Math.max(0, normal[2]);
  // A round wall hides about seven tenths of what an endless one would of an even sky.
  const off = Math.max(0.05, beyondStoma(stoma, onSkin(view, place)));
  const lower = Math.cos(Math.atan(stoma.heightMm / off));
  return 1 - 0.35 * (1 - lower);
}

function skinNormal({ view: { surface } }: Scene, [x, y, z]: Vector): Vector {
  const bend = surface.bendPerMm;
  if (bend === 0) return [0, 0, 1];
  const [c, s] = [Math.cos(surface.acrossRad), Math.sin(surface.acrossRad)];
  const angle = Math.atan2(c * x + s * y, z + 1 / bend);
  return [c * Math.sin(angle), s * Math.sin(angle), Math.cos(angle)];
}

function stomaNormal(scene: Scene, place: Vector): Vector {
  const { view, stoma } = scene;
  const value = (p: Vector) =>
    beyondStoma(stoma, onSkin(view, p)) - 0.5 * stoma.foldDepth * foldsAt(scene, onSkin(view, p)).fold;
  const e = 0.35;
  const [x, y, z] = place;
  return unit([
    value([x + e, y, z]) - value([x - e, y, z]),
    value([x, y + e, z]) - value([x, y - e, z]),
    Math.max(0.02, value([x, y, z + e]) - value([x, y, z - e])),
  ]);
}

/** What lies at a place of the card, or null in the hole and beyond the card. */
export function cardAt(scene: Scene, [x, y]: readonly [number, number]): "paper" | "ink" | null {
  const half = card.sideMm / 2;
  if (Math.abs(x) > half || Math.abs(y) > half || Math.hypot(x, y) < card.holeRadiusMm) return null;
  for (const { centreMm, modules } of card.markers) {
    const [dx, dy] = [x - centreMm[0] + card.markerSideMm / 2, centreMm[1] + card.markerSideMm / 2 - y];
    if (dx < 0 || dy < 0 || dx >= card.markerSideMm || dy >= card.markerSideMm) continue;
    const module = card.markerSideMm / modules.length;
    return modules[Math.floor(dy / module)]![Math.floor(dx / module)] === 1 ? "paper" : "ink";
  }
  if (scene.printedWords && isWord(x, y)) return "ink";
  return "paper";
}

/** Stands for the words between the markers: short strokes where they are printed. */
function isWord(x: number, y: number): boolean {
  const between = Math.abs(Math.abs(x) - 27) < 11 && Math.abs(Math.abs(y) - 53) < 5;
  return between && Math.floor(y / 1.1) % 4 === 0 && Math.floor(x / 0.7) % 3 !== 0;
}

function unit(vector: Vector): Vector {
  return scaled(vector, 1 / (lengthOf(vector) || 1));
}

function smoothStep(share: number): number {
  const s = Math.max(0, Math.min(1, share));
  return s * s * (3 - 2 * s);
}

function mixed(a: Colour, b: Colour, share: number): Colour {
  return a.map((value, k) => value + (b[k]! - value) * share) as unknown as Colour;
}
