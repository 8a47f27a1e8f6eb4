import type { Point } from "../../outline/index.ts";
import { leastSquares } from "../fit/levenbergMarquardt.ts";
import type { PixelPoint } from "../picture/pixels.ts";
import { type Camera, seenAt } from "./camera.ts";
import { product, rotationBy } from "./rotation.ts";
import { inSpace, type Surface } from "./surface.ts";

/** A camera and the skin it sees. */
export interface View {
  camera: Camera;
  surface: Surface;
}

/** A corner of a marker: where it is on the card and where in the picture. */
export interface Corner {
  markerId: number;
  onCard: Point;
  inPicture: PixelPoint;
}

/** What may differ from the view the search starts from, besides where the camera stands. */
export interface Freedom {
  lens: boolean;
  bend: boolean;
}

/** Error of a corner in the picture, in pixels; only its size beside the beliefs below matters. */
const cornerPx = 0.2;
/** Beliefs about phones and bodies, weak beside 32 corners: they decide only what the corners cannot. */
const belief = { logFocal: 0.12, radial: 0.02, bendPerMm: 1 / 150 };

/** The view that puts the card's corners where they are seen. */
export function fitView(corners: readonly Corner[], start: View, { lens, bend }: Freedom): View {
  const count = 2 * corners.length + 3;
  const startFocal = Math.log(start.camera.focalPx);
  const focalBelieved = Math.log(believedFocalPx(start.camera.middlePx));
  const unknowns = [startFocal, 0, 0, 0, ...start.camera.shiftMm];
  const steps = [1e-5, 1e-6, 1e-6, 1e-6, 1e-3, 1e-3, 1e-3];
  if (lens) {
    unknowns.push(start.camera.radial);
    steps.push(1e-6);
  }
  if (bend) {
    unknowns.push(...bendVector(start.surface));
    steps.push(1e-7, 1e-7);
  }
  const viewOf = (x: Float64Array): View => {
    const [logFocal, wx, wy, wz, sx, sy, sz] = x as unknown as number[];
    const camera: Camera = {
      ...start.camera,
      focalPx: Math.exp(logFocal!),
      rotation: product(rotationBy(wx!, wy!, wz!), start.camera.rotation),
      shiftMm: [sx!, sy!, sz!],
      radial: lens ? x[7]! : start.camera.radial,
    };
    return { camera, surface: bend ? surfaceOf(x[x.length - 2]!, x[x.length - 1]!) : start.surface };
  };
  const { unknowns: found } = leastSquares(
    unknowns,
    (x, into) => {
      const { camera, surface } = viewOf(x);
      corners.forEach(({ onCard, inPicture }, at) => {
        const [px, py] = seenAt(camera, inSpace(surface, onCard));
        into[2 * at] = (px - inPicture[0]) / cornerPx;
        into[2 * at + 1] = (py - inPicture[1]) / cornerPx;
      });
      into[count - 3] = (x[0]! - focalBelieved) / belief.logFocal;
      into[count - 2] = camera.radial / belief.radial;
      into[count - 1] = surface.bendPerMm / belief.bendPerMm;
    },
    { count, steps, mostRounds: 40, settled: 1e-7 },
  );
  return viewOf(found);
}

/** Phones see about 64° across the longer side. */
export function believedFocalPx(middlePx: PixelPoint): number {
  return 1.6 * Math.max(...middlePx);
}

/**
 * The bend as two figures that pass smoothly through none: a cylinder and the same cylinder turned by half a turn
 * are one, so the angle counts double.
 */
function bendVector({ bendPerMm, acrossRad }: Surface): [number, number] {
  return [bendPerMm * Math.cos(2 * acrossRad), bendPerMm * Math.sin(2 * acrossRad)];
}

function surfaceOf(x: number, y: number): Surface {
  return { bendPerMm: Math.sqrt(x * x + y * y), acrossRad: Math.atan2(y, x) / 2 };
}
