import type { Point } from "../../outline/index.ts";
import { solveSymmetric } from "../fit/solve.ts";
import { patchHalfMm } from "../patch/patch.ts";
import type { Features } from "./features.ts";
import { direction, type PolarOutline, pointsOf, smoothed } from "./polar.ts";

/** An outline to a part of a pixel, and how sure each ray is of it. */
export interface SharpOutline extends PolarOutline {
  /** Difference of light across the edge over its grain, one a ray. */
  clarity: Float64Array;
  /** Median width over which the stoma's share falls from three quarters to one, in mm. */
  edgeWidthMm: number;
  /** Root mean square of what the smooth line leaves of the edges found, in mm. */
  roughnessMm: number;
}

const stepMm = 0.1;
const searchMm = 1.3;
const sideFromMm = 0.7;
const sideToMm = 2.2;
/** Between the places along the edge that are averaged. */
const besideMm = 0.35;

/**
 * Moves each point of an outline along its normal to where the colour is half that of the stoma and half that of the
 * skin beside it: in light, where a blurred edge keeps its place. Then lays a smooth line through them that trusts
 * points less the further they lie off.
 */
export function sharpened(features: Features, outline: PolarOutline): SharpOutline {
  const rays = outline.radiiMm.length;
  const points = pointsOf(outline);
  const found = points.map((point, ray) => {
    const before = points[(ray + rays - 3) % rays]!;
    const after = points[(ray + 3) % rays]!;
    const [tx, ty] = [after[0] - before[0], after[1] - before[1]];
    const length = Math.hypot(tx, ty) || 1;
    const normal: Point = [ty / length, -tx / length];
    const edge = halfway(features, point, normal);
    const [c, s] = direction(ray, rays);
    const alongRay = Math.max(0.5, normal[0] * c + normal[1] * s);
    return edge === null
      ? { radius: outline.radiiMm[ray]!, clarity: 0, widthMm: 2 * searchMm }
      : { radius: outline.radiiMm[ray]! + edge.offMm / alongRay, ...edge };
  });
  const radii = Float64Array.from(found, ({ radius }) => radius);
  const clarity = Float64Array.from(found, ({ clarity }) => clarity);
  const edgeWidthMm = middleOf(Float64Array.from(found, ({ widthMm }) => widthMm));
  return { middle: outline.middle, clarity, edgeWidthMm, ...robustlySmoothed(radii, clarity) };
}

function robustlySmoothed(radii: Float64Array, clarity: Float64Array) {
  const clear = clarity.map((value) => Math.min(1, Math.max(0.02, value / 6)));
  let trust = clear;
  let smooth = radii;
  for (let round = 0; round < 5; round++) {
    smooth = smoothed(radii, trust, { waves: 16, rigidity: 2e-5 }, solveSymmetric);
    const off = radii.map((radius, ray) => Math.abs(radius - smooth[ray]!));
    const scale = Math.max(0.08, 2 * middleOf(off));
    trust = off.map((value, ray) => clear[ray]! / (1 + (value / scale) ** 2) ** 2);
  }
  let [sum, weight] = [0, 0];
  radii.forEach((radius, ray) => {
    sum += clear[ray]! * (radius - smooth[ray]!) ** 2;
    weight += clear[ray]!;
  });
  return { radiiMm: smooth, roughnessMm: Math.sqrt(sum / weight) };
}

/** Where along the normal the stoma's share is a half, counted from the point; null where there is no step inward. */
function halfway(features: Features, [x, y]: Point, [nx, ny]: Point) {
  const count = Math.round(sideToMm / stepMm);
  const profile = Array.from({ length: 2 * count + 1 }, (_, k): Colour => {
    const off = (k - count) * stepMm;
    return meanBeside(features, x + off * nx, y + off * ny, [-ny, nx]);
  });
  const offset = (k: number) => (k - count) * stepMm;
  const inner = meanColour(profile.filter((_, k) => offset(k) <= -sideFromMm));
  const outer = meanColour(profile.filter((_, k) => offset(k) >= sideFromMm));
  const shares = stomaShares(profile, inner, outer);
  if (shares === null) return null;
  let best: number | null = null;
  for (let k = 0; k < shares.along.length - 1; k++) {
    const [a, b] = [shares.along[k]!, shares.along[k + 1]!];
    if (a < 0.5 || b >= 0.5) continue;
    const at = offset(k) + (stepMm * (a - 0.5)) / (a - b);
    if (Math.abs(at) <= searchMm && (best === null || Math.abs(at) < Math.abs(best))) best = at;
  }
  if (best === null) return null;
  return {
    offMm: best,
    clarity: shares.clarity,
    widthMm: widthAbout(shares.along, best / stepMm + count) * stepMm,
  };
}

/** How many steps lie between the last share over three quarters before a place and the first under one after it. */
function widthAbout(shares: readonly number[], place: number): number {
  let [from, to] = [Math.floor(place), Math.ceil(place)];
  while (from > 0 && shares[from]! < 0.75) from -= 1;
  while (to < shares.length - 1 && shares[to]! > 0.25) to += 1;
  return to - from;
}

type Colour = readonly [number, number, number];

interface Side {
  mean: Colour;
  /** Root mean square distance of the colours from their mean. */
  grain: number;
}

/** Colours must part by so many grains, brightness left aside, to be told by colour alone. */
const enoughColour = 2.5;
const leastStep = 0.01;

/**
 * The stoma's share in each colour of a profile. Where the colours on both sides differ in more than brightness, each
 * is taken apart into so much of the one and so much of the other: the crease at the foot, where less light falls,
 * then moves nothing. Where they differ in brightness alone, brightness has to do.
 */
function stomaShares(profile: readonly Colour[], inner: Side, outer: Side) {
  const grain = Math.sqrt(inner.grain ** 2 + outer.grain ** 2) + 0.004;
  const [ss, kk, sk] = [
    dot(inner.mean, inner.mean),
    dot(outer.mean, outer.mean),
    dot(inner.mean, outer.mean),
  ];
  const step = Math.sqrt(Math.max(0, ss + kk - 2 * sk));
  if (step < leastStep) return null;
  const area = ss * kk - sk * sk;
  const inColour = Math.sqrt(Math.max(0, area) / Math.max(ss, kk));
  const along =
    inColour > enoughColour * grain
      ? profile.map((colour) => {
          const [s, k] = [dot(colour, inner.mean), dot(colour, outer.mean)];
          const ofStoma = Math.max(0, (s * kk - k * sk) / area);
          const ofSkin = Math.max(0, (k * ss - s * sk) / area);
          return ofStoma / (ofStoma + ofSkin || 1);
        })
      : profile.map((colour) => (dot(colour, inner.mean) - dot(colour, outer.mean) - sk + kk) / step ** 2);
  return { along, clarity: step / grain };
}

/** Mean of three places along the edge. */
function meanBeside(features: Features, x: number, y: number, [tx, ty]: Point): Colour {
  const [a, b, c] = [-besideMm, 0, besideMm].map((off) => lightAt(features, x + off * tx, y + off * ty)) as [
    Colour,
    Colour,
    Colour,
  ];
  return [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3];
}

function meanColour(colours: readonly Colour[]): Side {
  const mean = [0, 1, 2].map((k) => colours.reduce((sum, colour) => sum + colour[k]!, 0) / colours.length);
  const squares = colours.reduce(
    (sum, colour) => sum + colour.reduce((s, value, k) => s + (value - mean[k]!) ** 2, 0),
    0,
  );
  return { mean: mean as unknown as Colour, grain: Math.sqrt(squares / colours.length) };
}

function dot(a: Colour, b: Colour): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function lightAt({ side, pxPerMm, reflected }: Features, xMm: number, yMm: number): Colour {
  const x = (xMm + patchHalfMm) * pxPerMm - 0.5;
  const y = (patchHalfMm - yMm) * pxPerMm - 0.5;
  const left = Math.min(Math.max(Math.floor(x), 0), side - 2);
  const top = Math.min(Math.max(Math.floor(y), 0), side - 2);
  const [fx, fy] = [x - left, y - top];
  const at = top * side + left;
  const between = (plane: Float32Array) =>
    (1 - fy) * ((1 - fx) * plane[at]! + fx * plane[at + 1]!) +
    fy * ((1 - fx) * plane[at + side]! + fx * plane[at + side + 1]!);
  return [between(reflected[0]), between(reflected[1]), between(reflected[2])];
}

function middleOf(values: Float64Array): number {
  return values.slice().sort()[values.length >> 1]!;
}
