import { describe, expect, it } from "vitest";
import { card } from "../../frame-card/index.ts";
import type { Point } from "../../outline/index.ts";
import { type Camera, seenAt } from "./camera.ts";
import type { Corner, View } from "./fitView.ts";
import { homographyOf, mapped } from "./homography.ts";
import { placeCard, poseOf, pxPerMmAt, toCard, toPicture } from "./place.ts";
import { product, rotationBy, turned } from "./rotation.ts";
import { flat, inSpace, type Surface } from "./surface.ts";

const [width, height] = [1600, 1200];

/** A camera that looks at the card's middle, slanted to the person's left, its picture turned. */
function view({ tiltDeg = 20, distanceMm = 300, radial = 0, surface = flat } = {}): View {
  const tilt = (tiltDeg * Math.PI) / 180;
  const down = [1, 0, 0, 0, -1, 0, 0, 0, -1];
  const rotation = product(rotationBy(0, 0, 0.3), product(rotationBy(0.4 * tilt, 0.9165 * tilt, 0), down));
  const aim = turned(rotation, [6, -4, 0]);
  const camera: Camera = {
    focalPx: 1300,
    middlePx: [(width - 1) / 2, (height - 1) / 2],
    radial,
    rotation,
    shiftMm: [-aim[0], -aim[1], distanceMm - aim[2]],
  };
  return { camera, surface };
}

/** Corners of the card's markers as the view shows them. */
function cornersIn(seen: View, ids = [0, 1, 2, 3, 4, 5, 6, 7]): Corner[] {
  return ids.flatMap((id) => {
    const [cx, cy] = card.markers[id]!.centreMm;
    return (
      [
        [-8, 8],
        [8, 8],
        [8, -8],
        [-8, -8],
      ] as const
    ).map(([dx, dy]): Corner => {
      const onCard: Point = [cx + dx, cy + dy];
      return { markerId: id, onCard, inPicture: toPicture(seen, onCard) };
    });
  });
}

const inHole: Point[] = [
  [0, 0],
  [20, 5],
  [-12, 18],
  [3, -30],
  [-35, -4],
];

function farthestMm(found: View, truth: View): number {
  return Math.max(
    ...inHole.map((place) => {
      const seen = toCard(found, toPicture(truth, place))!;
      return Math.hypot(seen[0] - place[0], seen[1] - place[1]);
    }),
  );
}

const bent: Surface = { bendPerMm: 1 / 200, acrossRad: 0.7 };

describe("places between picture and card", () => {
  it.each([
    ["flat", flat],
    ["bent", bent],
    ["bent inward", { bendPerMm: -1 / 250, acrossRad: 2 }],
  ])("come back from a %s card seen through a lens", (_name, surface) => {
    const seen = view({ surface, radial: 0.02 });
    for (const place of inHole) {
      const [x, y] = toCard(seen, toPicture(seen, place))!;
      expect(Math.hypot(x - place[0], y - place[1])).toBeLessThan(1e-4);
    }
  });

  it("lengths along a bent card are those of the paper", () => {
    const [a, b] = [
      inSpace({ bendPerMm: 1 / 200, acrossRad: 0 }, [0, 0]),
      inSpace({ bendPerMm: 1 / 200, acrossRad: 0 }, [60, 0]),
    ];
    const chord = Math.hypot(b[0] - a[0], b[2] - a[2]);
    expect(chord).toBeCloseTo(2 * 200 * Math.sin(60 / 400), 9);
  });

  it("what stands up is seen further from the camera's foot by d / (d − h)", () => {
    const seen = view({ tiltDeg: 0 });
    const [x, y] = toCard(seen, seenAt(seen.camera, inSpace(flat, [26, -4], 20)))!;
    // The camera stands 300 mm above (6, −4), and the place is 20 mm to its side.
    expect(x).toBeCloseTo(6 + (20 * 300) / 280, 6);
    expect(y).toBeCloseTo(-4, 6);
  });
});

describe("placing the card", () => {
  it.each([
    ["a flat card", { tiltDeg: 25 }, "flat"],
    ["a lens that bends lines", { tiltDeg: 15, radial: -0.04 }, "lens"],
    ["a bent card", { tiltDeg: 18, surface: bent }, "bent"],
  ] as const)(
    "understands %s and puts the hole within a hundredth of a millimetre",
    (_name, options, model) => {
      const truth = view(options);
      const placed = placeCard(cornersIn(truth), width, height);
      expect(placed.model).toBe(model);
      expect(farthestMm(placed.view, truth)).toBeLessThan(0.05);
    },
  );

  it("measures a bent card better than a plain homography does", () => {
    const truth = view({ surface: bent });
    const corners = cornersIn(truth);
    const plain = homographyOf(corners.map(({ onCard, inPicture }) => ({ from: inPicture, to: onCard })));
    const off = (place: Point, [x, y]: readonly [number, number]) => Math.hypot(x - place[0], y - place[1]);
    const plainOff = Math.max(...inHole.map((place) => off(place, mapped(plain, toPicture(truth, place)))));
    expect(plainOff).toBeGreaterThan(1);
    expect(farthestMm(placeCard(corners, width, height).view, truth)).toBeLessThan(0.05);
  });

  it("knows slant and distance", () => {
    const { tiltDeg, distanceMm } = poseOf(view({ tiltDeg: 0, distanceMm: 320 }));
    expect(distanceMm).toBeCloseTo(Math.hypot(320, 6, 4), 6);
    expect(tiltDeg).toBeCloseTo((Math.atan(Math.hypot(6, 4) / 320) * 180) / Math.PI, 6);
    const placed = placeCard(cornersIn(view({ tiltDeg: 22 })), width, height);
    expect(poseOf(placed.view).tiltDeg).toBeCloseTo(poseOf(view({ tiltDeg: 22 })).tiltDeg, 0);
    expect(pxPerMmAt(view({ tiltDeg: 0 }), [6, -4])).toBeCloseTo(1300 / 300, 3);
  });

  it("makes do with four markers", () => {
    const truth = view({ tiltDeg: 12 });
    const placed = placeCard(cornersIn(truth, [0, 2, 4, 6]), width, height);
    expect(farthestMm(placed.view, truth)).toBeLessThan(0.05);
  });
});
