import type { Camera } from "../../../src/domain/photo/mapping/camera.ts";
import type { View } from "../../../src/domain/photo/mapping/fitView.ts";
import { product, rotationBy, turned } from "../../../src/domain/photo/mapping/rotation.ts";
import { type Chance, chanceOf } from "./chance.ts";

export type Colour = readonly [red: number, green: number, blue: number];

/** A stoma that was made up. Lengths in mm on the skin, from the card's middle. */
export interface MadeStoma {
  middle: readonly [number, number];
  radiusMm: number;
  /** Waves of the outline: share of the radius and turn, from the second on. */
  waves: readonly { share: number; turn: number }[];
  heightMm: number;
  /** Profile (1 − t^steep)^(1/full), wider by `overhang` in its middle, its top shifted by `lean` a height. */
  steep: number;
  full: number;
  overhang: number;
  lean: readonly [number, number];
  folds: number;
  swirl: number;
  foldDepth: number;
  tipDepth: number;
  tipOff: readonly [number, number];
  colour: Colour;
  shine: number;
}

export interface Spot {
  x: number;
  y: number;
  radiusMm: number;
  colour: Colour;
  cover: number;
}

/** A hair: its middle, its direction and how it curves. */
export interface Hair {
  x: number;
  y: number;
  turn: number;
  curve: number;
}

/** A photograph before it is taken. */
export interface Scene {
  seed: number;
  tags: string[];
  width: number;
  height: number;
  view: View;
  skin: Colour;
  mottle: number;
  /** Redness round the stoma: how strong beside it, and how far it reaches on each of eight sides. */
  redness: { strength: number; reachMm: readonly number[] };
  spots: readonly Spot[];
  hairs: readonly Hair[];
  stoma: MadeStoma;
  /** Direction to the lamp, its light, and that from everywhere. */
  lamp: { to: readonly [number, number, number]; colour: Colour; atCamera: boolean; size: number };
  ambient: Colour;
  /** How light falls off across the scene, a share a 100 mm. */
  slope: readonly [number, number];
  printedWords: boolean;
  paper: Colour;
  exposure: number;
  balance: Colour;
  blurPx: number;
  motionPx: readonly [number, number];
  grain: number;
  jpegQuality: number;
}

/** From very pale to very dark, in linear light. */
const tones: readonly Colour[] = [
  [0.72, 0.52, 0.42],
  [0.62, 0.41, 0.3],
  [0.52, 0.31, 0.2],
  [0.38, 0.21, 0.125],
  [0.26, 0.135, 0.078],
  [0.16, 0.08, 0.048],
  [0.085, 0.044, 0.03],
];

const mucosas: Record<string, Colour> = {
  pale: [0.62, 0.27, 0.24],
  "": [0.5, 0.11, 0.1],
  dark: [0.25, 0.035, 0.04],
};

/** A scene of everyday difficulty; each seed its own. */
export function sceneOf(seed: number): Scene {
  const chance = chanceOf(seed);
  const tags: string[] = [];
  const tag = (share: number, name: string) => {
    const is = chance.is(share);
    if (is) tags.push(name);
    return is;
  };
  const [width, height] = chance.is(0.25) ? [1200, 1600] : [1600, 1200];
  const tone = Math.floor(chance.between(0, tones.length));
  tags.push(`tone-${tone}`);
  const mucosa = chance.one(["", "", "pale", "dark"]);
  if (mucosa) tags.push(`${mucosa}-mucosa`);
  const view = viewOf(chance, tags, width, height);
  const lampKind = chance.one(["overhead", "window", "lamp", "flash", "mixed"]);
  tags.push(lampKind);
  const skin = jittered(chance, tones[tone]!, 0.08);
  return {
    seed,
    tags,
    width,
    height,
    view,
    skin,
    mottle: chance.between(0.03, 0.12),
    redness: {
      strength: tag(0.35, "redness") ? chance.between(0.25, 0.8) : chance.between(0, 0.1),
      reachMm: Array.from({ length: 8 }, () => chance.between(2, 9)),
    },
    spots: spotsOf(chance, tag),
    hairs: Array.from({ length: tag(0.2, "hairs") ? Math.floor(chance.between(10, 40)) : 0 }, () => ({
      x: chance.between(-38, 38),
      y: chance.between(-38, 38),
      turn: chance.between(0, Math.PI),
      curve: chance.normal(0, 0.02),
    })),
    stoma: stomaOf(chance, tag, jittered(chance, mucosas[mucosa]!, 0.12)),
    ...lightOf(chance, lampKind),
    printedWords: chance.is(0.6),
    paper: jittered(chance, [0.86, 0.86, 0.85], 0.02),
    exposure: chance.between(0.75, 1.25),
    balance: [1 + chance.normal(0, 0.1), 1, 1 + chance.normal(0, 0.12)],
    blurPx: tag(0.15, "soft") ? chance.between(1.2, 2.4) : chance.between(0.5, 0.9),
    motionPx: tag(0.12, "motion") ? [chance.normal(0, 3), chance.normal(0, 3)] : [0, 0],
    grain: chance.between(0.004, 0.02),
    jpegQuality: Math.round(chance.between(72, 93)),
  };
}

function jittered(chance: Chance, colour: Colour, share: number): Colour {
  return colour.map((value) => value * Math.exp(chance.normal(0, share))) as unknown as Colour;
}

type Tag = (share: number, name: string) => boolean;

function stomaOf(chance: Chance, tag: Tag, colour: Colour): MadeStoma {
  const radiusMm = chance.between(8, 26);
  const oval = tag(0.35, "oval") ? chance.between(0.08, 0.2) : chance.between(0, 0.05);
  const lobed = tag(0.12, "lobed") ? 2.2 : 1;
  const flush = tag(0.2, "flush");
  const tall = !flush && tag(0.25, "tall");
  const heightMm = flush ? chance.between(0.4, 3.5) : tall ? chance.between(16, 26) : chance.between(4, 16);
  const far = tag(0.3, "off-centre") ? Math.max(0, Math.min(9, 34 - radiusMm * 1.2)) : 3;
  return {
    middle: [chance.normal(0, far / 2), chance.normal(0, far / 2)],
    radiusMm,
    waves: [
      oval,
      ...[0.012, 0.01, 0.006, 0.004].map((share) => lobed * Math.abs(chance.normal(0, share))),
    ].map((share) => ({ share, turn: chance.between(0, 2 * Math.PI) })),
    heightMm,
    steep: chance.between(2, 4),
    full: chance.between(2, 4),
    overhang: tag(0.2, "overhang") ? chance.between(0.02, 0.08) : 0,
    lean: tag(0.3, "leaning") ? [chance.normal(0, 0.12), chance.normal(0, 0.12)] : [0, 0],
    folds: Math.round(chance.between(9, 18)),
    swirl: chance.normal(0, 1.2),
    foldDepth: chance.between(0.15, 0.6),
    tipDepth: chance.between(0.05, 0.25),
    tipOff: [chance.normal(0, 0.05 * radiusMm), chance.normal(0, 0.05 * radiusMm)],
    colour,
    shine: chance.between(0.1, 0.9),
  };
}

function spotsOf(chance: Chance, tag: Tag): Spot[] {
  const spots: Spot[] = [];
  const some = (most: number, colour: Colour, cover: number, sizes: readonly [number, number]) => {
    const [from, to] = sizes;
    for (let k = Math.ceil(chance.between(0, most)); k > 0; k--) {
      spots.push({
        x: chance.normal(0, 14),
        y: chance.normal(-3, 14),
        radiusMm: chance.between(from, to),
        colour,
        cover,
      });
    }
  };
  if (tag(0.18, "blood")) some(3, [0.28, 0.012, 0.012], 0.75, [1.5, 4]);
  if (tag(0.18, "mucus")) some(3, [0.7, 0.62, 0.42], 0.5, [2, 5]);
  return spots;
}

function lightOf(chance: Chance, kind: string): Pick<Scene, "lamp" | "ambient" | "slope"> {
  const low = kind === "window" || kind === "lamp";
  const turn = chance.between(0, 2 * Math.PI);
  const rise = ((low ? chance.between(28, 60) : chance.between(55, 85)) * Math.PI) / 180;
  const warm = kind === "lamp" ? 0.2 : kind === "window" ? -0.08 : 0.05;
  const colour: Colour = [1 + warm, 1, 1 - 1.3 * warm];
  const strength = kind === "overhead" ? 0.6 : kind === "mixed" ? 0.5 : chance.between(0.6, 0.85);
  return {
    lamp: {
      to: [Math.cos(rise) * Math.cos(turn), Math.cos(rise) * Math.sin(turn), Math.sin(rise)],
      colour: colour.map((value) => value * strength) as unknown as Colour,
      atCamera: kind === "flash",
      size: chance.between(0.02, 0.25),
    },
    ambient: [1 - strength, 1 - strength, (1 - strength) * chance.between(0.95, 1.12)],
    slope: [chance.normal(0, 0.1), chance.normal(0, 0.1)],
  };
}

/** A camera held over the card as people hold it: aimed about at its middle, at some slant. */
function viewOf(chance: Chance, tags: string[], width: number, height: number): View {
  const steep = chance.is(0.15);
  const tilt = ((steep ? chance.between(24, 34) : Math.abs(chance.normal(0, 11))) * Math.PI) / 180;
  if (steep) tags.push("steep");
  const focalPx = Math.max(width, height) * chance.between(0.74, 0.9);
  const distance = chance.between(210, 370);
  const azimuth = chance.between(0, 2 * Math.PI);
  const roll = chance.is(0.15) ? chance.between(-Math.PI, Math.PI) : chance.normal(0, 0.25);
  const bent = chance.is(0.5);
  const bendRadius = chance.between(170, 450);
  if (bent) tags.push(`curved-R${bendRadius.toFixed(0)}`);
  const lens = chance.is(0.3);
  if (lens) tags.push("lens");
  // Looking down the card's normal: x stays, y and z turn over; then slanted, then rolled about the line of sight.
  const down = [1, 0, 0, 0, -1, 0, 0, 0, -1];
  const slant = rotationBy(tilt * Math.cos(azimuth), tilt * Math.sin(azimuth), 0);
  const rotation = product(rotationBy(0, 0, roll), product(slant, down));
  const aimed = turned(rotation, [chance.normal(0, 12), chance.normal(0, 12), 0]);
  const camera: Camera = {
    focalPx,
    middlePx: [(width - 1) / 2, (height - 1) / 2],
    radial: lens ? chance.normal(0, 0.015) : 0,
    rotation,
    shiftMm: [-aimed[0], -aimed[1], distance - aimed[2]],
  };
  return {
    camera,
    surface: {
      bendPerMm: bent ? 1 / bendRadius : 0,
      acrossRad: chance.is(0.7) ? chance.normal(0, 0.3) : chance.between(0, Math.PI),
    },
  };
}
