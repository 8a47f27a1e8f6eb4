import { beforeAll, describe, expect, it } from "vitest";
import { card } from "../../frame-card/index.ts";
import { homographyOf, mapped } from "../mapping/homography.ts";
import type { Pixels } from "../picture/pixels.ts";
import { type FoundMarker, findMarkers } from "./find.ts";

/** Corners of the card in the picture, from its head left corner clockwise: a slanted view. */
const cardCorners = [
  [150, 90],
  [560, 130],
  [520, 500],
  [110, 420],
] as const;
const half = card.sideMm / 2;
const toPicture = homographyOf(
  (
    [
      [-half, half],
      [half, half],
      [half, -half],
      [-half, -half],
    ] as const
  ).map((from, at) => ({
    from,
    to: cardCorners[at]!,
  })),
);
const toCard = homographyOf(
  cardCorners.map((from, at) => ({
    from,
    to: (
      [
        [-half, half],
        [half, half],
        [half, -half],
        [-half, -half],
      ] as const
    )[at]!,
  })),
);

/** The card drawn with 3 by 3 rays a pixel; `hidden` tells which places are covered. */
function picture(hidden: (xPx: number, yPx: number) => boolean = () => false): Pixels {
  const [width, height] = [660, 560];
  const data = new Uint8ClampedArray(4 * width * height).fill(255);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let light = 0;
      for (let k = 0; k < 9; k++) {
        const [px, py] = [x + ((k % 3) - 1) / 3, y + (Math.floor(k / 3) - 1) / 3];
        light += hidden(px, py) ? 0.4 : lightAt(px, py);
      }
      data.fill(255 * (light / 9) ** (1 / 2.2), 4 * (y * width + x), 4 * (y * width + x) + 3);
    }
  }
  return { width, height, data };
}

function lightAt(px: number, py: number): number {
  const [x, y] = mapped(toCard, [px, py]);
  if (Math.abs(x) > half || Math.abs(y) > half) return 0.3;
  if (Math.hypot(x, y) < card.holeRadiusMm) return 0.25;
  for (const { centreMm, modules } of card.markers) {
    const [column, row] = [
      Math.floor(((x - centreMm[0]) / card.markerSideMm + 0.5) * modules.length),
      Math.floor(((centreMm[1] - y) / card.markerSideMm + 0.5) * modules.length),
    ];
    const module = modules[row]?.[column];
    if (module !== undefined) return module === 1 ? 0.85 : 0.04;
  }
  return 0.85;
}

function farthestPx(found: readonly FoundMarker[]): number {
  const offs = found.flatMap(({ id, corners }) => {
    const [cx, cy] = card.markers.find((marker) => marker.id === id)!.centreMm;
    return (
      [
        [-8, 8],
        [8, 8],
        [8, -8],
        [-8, -8],
      ] as const
    ).map(([dx, dy], at) => {
      const [x, y] = mapped(toPicture, [cx + dx, cy + dy]);
      return Math.hypot(corners[at]![0] - x, corners[at]![1] - y);
    });
  });
  return Math.max(...offs);
}

describe("finding the card's markers", () => {
  let whole: Pixels;
  beforeAll(() => {
    whole = picture();
  });

  it("finds all eight on a slanted card, their corners within a tenth of a pixel", () => {
    const found = findMarkers(whole);
    expect(found.map(({ id }) => id)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(farthestPx(found)).toBeLessThan(0.1);
  });

  it("passes over a marker that a thumb covers in part, and keeps the others exact", () => {
    const found = findMarkers(picture((x, y) => Math.hypot(x - 150, y - 100) < 45));
    expect(found.map(({ id }) => id)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(farthestPx(found)).toBeLessThan(0.1);
  });

  it("reads a card that lies on its head the right way round", () => {
    const { width, height, data } = whole;
    const turned = new Uint8ClampedArray(data.length);
    for (let at = 0; at < width * height; at++) {
      turned.set(data.subarray(4 * at, 4 * at + 4), 4 * (width * height - 1 - at));
    }
    const found = findMarkers({ width, height, data: turned }).map(({ id, corners, edgeSpreadPx }) => ({
      id,
      edgeSpreadPx,
      corners: corners.map(
        ([x, y]) => [width - 1 - x, height - 1 - y] as const,
      ) as unknown as FoundMarker["corners"],
    }));
    expect(found).toHaveLength(8);
    expect(farthestPx(found)).toBeLessThan(0.1);
  });

  it("finds none in a picture without a card, nor in a mirrored one", () => {
    const { width, height, data } = whole;
    const mirrored = new Uint8ClampedArray(data.length);
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const from = 4 * (y * width + x);
        mirrored.set(data.subarray(from, from + 4), 4 * (y * width + width - 1 - x));
      }
    }
    expect(findMarkers({ width, height, data: mirrored })).toEqual([]);
    expect(findMarkers({ width, height, data: new Uint8ClampedArray(data.length).fill(180) })).toEqual([]);
  });
});
