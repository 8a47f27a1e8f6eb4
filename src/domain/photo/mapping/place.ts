import { card } from "../../frame-card/index.ts";
import type { Point } from "../../outline/index.ts";
import type { FoundMarker } from "../markers/find.ts";
import type { PixelPoint } from "../picture/pixels.ts";
import { type Camera, rayOf, seenAt, standsAt } from "./camera.ts";
import { believedFocalPx, type Corner, type Freedom, fitView, type View } from "./fitView.ts";
import { homographyOf } from "./homography.ts";
import { poseFrom } from "./pose.ts";
import { flat, inSpace, type Surface, whereMet } from "./surface.ts";

/** How the card's scale was printed: measured over nominal along its x and y. */
export interface CardScale {
  x: number;
  y: number;
}

/** The corners of the markers found, in true millimetres. */
export function cornersOf(markers: readonly FoundMarker[], scale: CardScale): Corner[] {
  const half = card.markerSideMm / 2;
  return markers.flatMap(({ id, corners }) => {
    const [cx, cy] = card.markers.find((marker) => marker.id === id)!.centreMm;
    return corners.map((inPicture, at): Corner => {
      const [dx, dy] = cornerSigns[at]!;
      return {
        markerId: id,
        onCard: [(cx + dx * half) * scale.x, (cy + dy * half) * scale.y],
        inPicture,
      };
    });
  });
}

const cornerSigns = [
  [-1, 1],
  [1, 1],
  [1, -1],
  [-1, -1],
] as const;

/** A place on the card as the picture shows it, `heightMm` above the skin. */
export function toPicture({ camera, surface }: View, place: Point, heightMm = 0): PixelPoint {
  return seenAt(camera, inSpace(surface, place, heightMm));
}

/** The place on the skin that a pixel shows; null where it shows none. */
export function toCard({ camera, surface }: View, pixel: PixelPoint): Point | null {
  return whereMet(surface, standsAt(camera), rayOf(camera, pixel));
}

/** How the card was understood, and what other ways of understanding it would have made of markers not shown to them. */
export interface Placed {
  view: View;
  model: Model;
  /** Root mean square distance in mm at markers that were left out of the fit, by model. */
  heldOutMm: Record<Model, number>;
}

/** `flat`: a plane seen by a lens without distortion; `lens`: with; `bent`: a cylinder seen by such a lens. */
export type Model = "flat" | "lens" | "bent";

const freedoms: Record<Model, Freedom> = {
  flat: { lens: false, bend: false },
  lens: { lens: true, bend: false },
  bent: { lens: true, bend: true },
};

/** A fuller model is kept only where it foresees markers better by this share. */
const worthwhile = 0.93;

/** Finds where the camera stands and how the card lies. Needs at least four markers. */
export function placeCard(corners: readonly Corner[], width: number, height: number): Placed {
  const middlePx: PixelPoint = [(width - 1) / 2, (height - 1) / 2];
  const views = {} as Record<Model, View>;
  const heldOutMm = {} as Record<Model, number>;
  views.flat = fitView(corners, startFrom(corners, middlePx), freedoms.flat);
  views.lens = fitView(corners, views.flat, freedoms.lens);
  views.bent = bestBend(corners, views.flat);
  let model: Model = "flat";
  for (const tried of ["flat", "lens", "bent"] as const) {
    heldOutMm[tried] = heldOut(corners, views[tried], freedoms[tried]);
    if (heldOutMm[tried] < worthwhile * heldOutMm[model]) model = tried;
  }
  return { view: views[model], model, heldOutMm };
}

export function startFrom(corners: readonly Corner[], middlePx: PixelPoint): View {
  const map = homographyOf(corners.map(({ onCard, inPicture }) => ({ from: onCard, to: inPicture })));
  return { camera: poseFrom(map, believedFocalPx(middlePx), middlePx), surface: flat };
}

/** A bend may lie any way: the search starts from four. */
function bestBend(corners: readonly Corner[], start: View): View {
  const starts = [0, 1, 2, 3].map(
    (eighths): Surface => ({ bendPerMm: 1 / 300, acrossRad: (eighths * Math.PI) / 4 }),
  );
  const views = starts.map((surface) => fitView(corners, { ...start, surface }, freedoms.bent));
  const errors = views.map((view) => rms(errorsMm(corners, view)));
  return views[errors.indexOf(Math.min(...errors))]!;
}

/** Leaves each marker out in turn and asks where the others put it. */
function heldOut(corners: readonly Corner[], view: View, freedom: Freedom): number {
  const ids = [...new Set(corners.map(({ markerId }) => markerId))];
  const errors = ids.flatMap((id) => {
    const others = corners.filter(({ markerId }) => markerId !== id);
    const left = corners.filter(({ markerId }) => markerId === id);
    return errorsMm(left, fitView(others, view, freedom));
  });
  return rms(errors);
}

/** Distance in mm on the skin between where each corner is and where the view sees it; far where it sees none. */
function errorsMm(corners: readonly Corner[], view: View): number[] {
  return corners.map(({ onCard, inPicture }) => {
    const place = toCard(view, inPicture);
    return place === null ? 50 : Math.hypot(place[0] - onCard[0], place[1] - onCard[1]);
  });
}

function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}

export interface Pose {
  /** Between the skin's normal at the card's centre and the line from there to the camera. */
  tiltDeg: number;
  /** From the card's centre to the camera. */
  distanceMm: number;
  /** Pixels a millimetre at the card's centre, the coarser way. */
  pxPerMm: number;
}

/** How the camera stood. */
export function poseOf(view: View): Pose {
  const [x, y, z] = standsAt(view.camera);
  const distanceMm = Math.sqrt(x * x + y * y + z * z);
  return {
    tiltDeg: (Math.acos(z / distanceMm) * 180) / Math.PI,
    distanceMm,
    pxPerMm: pxPerMmAt(view, [0, 0]),
  };
}

/** Least number of pixels that a millimetre takes up at a place, whichever way it lies. */
export function pxPerMmAt(view: View, [x, y]: Point): number {
  const middle = toPicture(view, [x, y]);
  const right = toPicture(view, [x + 1, y]);
  const up = toPicture(view, [x, y + 1]);
  const [a, b, c, d] = [right[0] - middle[0], up[0] - middle[0], right[1] - middle[1], up[1] - middle[1]];
  const squares = a * a + b * b + c * c + d * d;
  const area = a * d - b * c;
  return Math.sqrt((squares - Math.sqrt(Math.max(0, squares * squares - 4 * area * area))) / 2);
}

export type { Camera, View };
