import { card } from "../../frame-card/index.ts";
import type { Features } from "../edge/features.ts";
import { direction, type PolarOutline } from "../edge/polar.ts";
import { patchHalfMm } from "../patch/patch.ts";

const besideMm = [0.8, 1.5, 2.2];
const furtherMm = [8, 10, 12];
/** Skin whiter than this share of paper may be at the picture's limit, where no shadow shows. */
const brightest = 0.93;
const paperFromMm = 1.5;

/**
 * How much light the skin beside the outline has lost in its darkest fifth, on logarithms, beside the skin further
 * off: what stands up takes light from the skin at its foot. Red light is asked, since redness leaves it alone.
 * Null where skin is too white or too little of it is seen.
 */
export function shadeBeside(features: Features, outline: PolarOutline): number | null {
  const rays = outline.radiiMm.length;
  const beside: number[] = [];
  const further: number[] = [];
  for (let ray = 0; ray < rays; ray += 2) {
    beside.push(...redAlong(features, outline, ray, besideMm));
    further.push(...redAlong(features, outline, ray, furtherMm));
  }
  if (beside.length < rays / 4 || further.length < rays / 4) return null;
  const skin = share(further, 0.5);
  return skin > Math.log(brightest) ? null : skin - share(beside, 0.2);
}

/** Mean of the logarithm of red over some distances from the outline; nothing where they run onto the card. */
function redAlong(
  features: Features,
  { middle, radiiMm }: PolarOutline,
  ray: number,
  offsMm: readonly number[],
): number[] {
  const [c, s] = direction(ray, radiiMm.length);
  const { side, pxPerMm, brightness, redness } = features;
  let sum = 0;
  for (const off of offsMm) {
    const radius = radiiMm[ray]! + off;
    const [x, y] = [middle[0] + radius * c, middle[1] + radius * s];
    if (Math.hypot(x, y) > card.holeRadiusMm - paperFromMm) return [];
    const at =
      Math.round((patchHalfMm - y) * pxPerMm - 0.5) * side + Math.round((x + patchHalfMm) * pxPerMm - 0.5);
    sum += brightness[at]! + redness[at]!;
  }
  return [sum / offsMm.length];
}

function share(values: number[], part: number): number {
  return values.sort((a, b) => a - b)[Math.floor(part * values.length)]!;
}
