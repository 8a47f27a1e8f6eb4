import { describe, expect, it } from "vitest";
import { areaMm2, type Outline } from "../../outline/index.ts";
import type { Camera } from "../mapping/camera.ts";
import type { View } from "../mapping/place.ts";
import { product, rotationBy } from "../mapping/rotation.ts";
import { flat } from "../mapping/surface.ts";
import { drawnIn, reachOfOutline } from "./base.ts";
import { fitBody } from "./fitBody.ts";
import { beyondBase, directions, normals, projected, type Solid } from "./solid.ts";

/** A camera 300 mm from the card's middle, slanted so that it stands on the person's left. */
function seenFrom(tiltDeg: number): View {
  const down = [1, 0, 0, 0, -1, 0, 0, 0, -1];
  const rotation = product(rotationBy(0, (tiltDeg * Math.PI) / 180, 0), down);
  const camera: Camera = { focalPx: 1300, middlePx: [800, 600], radial: 0, rotation, shiftMm: [0, 0, 300] };
  return { camera, surface: flat };
}

const roundReach = (radius: number) => new Float64Array(directions).fill(radius);
const diameter = (outline: Outline) => 2 * Math.sqrt(areaMm2(outline) / Math.PI);

/** The silhouette of a solid on a round base, as an outline. */
function silhouette(view: View, radius: number, solid: Solid): Outline {
  const beyond = beyondBase(view, [0, 0], roundReach(radius), solid);
  // The envelope of the lines that touch it: h·n + h′·t.
  const step = (2 * Math.PI) / directions;
  return normals.map(([nx, ny], k) => {
    const reach = (at: number) => radius + beyond[(at + directions) % directions]!;
    const slope = (reach(k + 1) - reach(k - 1)) / (2 * step);
    return [reach(k) * nx - slope * ny, reach(k) * ny + slope * nx] as const;
  });
}

describe("what a stoma hides of its base", () => {
  it("a flat one hides nothing", () => {
    const beyond = beyondBase(seenFrom(25), [0, 0], roundReach(16), {
      heightMm: 0,
      fullness: 3,
      overhang: 0,
    });
    expect(Math.max(...beyond)).toBeLessThan(1e-9);
  });

  it("one nearly a cylinder looks larger by d / (d − h) from straight above", () => {
    const beyond = beyondBase(seenFrom(0), [0, 0], roundReach(16), {
      heightMm: 20,
      fullness: 60,
      overhang: 0,
    });
    // Its highest slice that counts lies at 0.95 of the height.
    expect(beyond[0]).toBeCloseTo(16 * (300 / (300 - 19)) - 16, 1);
  });

  it("half an egg hides far less, and a slant hides the side away from the camera alone", () => {
    const solid: Solid = { heightMm: 15, fullness: 2.8, overhang: 0 };
    expect(
      Math.max(...beyondBase(seenFrom(0), [0, 0], roundReach(18), { ...solid, fullness: 2 })),
    ).toBeLessThan(0.1);
    const beyond = beyondBase(seenFrom(25), [0, 0], roundReach(18), solid);
    const [x] = projected(
      seenFrom(25),
      [300 * Math.sin(25 * (Math.PI / 180)), 0, 300 * Math.cos(25 * (Math.PI / 180))],
      [0, 0],
      15,
    )!;
    expect(x).toBeLessThan(0);
    expect(beyond[directions / 2]).toBeGreaterThan(1.5);
    expect(beyond[0]).toBeLessThan(0.1);
  });
});

describe("the base under a silhouette", () => {
  const solid: Solid = { heightMm: 16, fullness: 2.8, overhang: 0 };
  const view = seenFrom(22);
  const seen = silhouette(view, 17, solid);
  const camera = [300 * Math.sin((22 * Math.PI) / 180), 0, 300 * Math.cos((22 * Math.PI) / 180)] as const;
  const tip = { at: projected(view, camera, [0, 0], 0.8 * solid.heightMm)!, darkness: 0.5 };

  it("is found to a third of a millimetre where the height is told", () => {
    const body = fitBody(reachOfOutline(seen), view, { tip, shade: 0.3, told: { mm: 16, spreadMm: 1.5 } });
    expect(Math.abs(diameter(drawnIn(seen, body.beyondMm)) - 34)).toBeLessThan(0.35);
  });

  it("is found nearly as well from where the tip is seen", () => {
    const body = fitBody(reachOfOutline(seen), view, { tip, shade: 0.3, told: null });
    expect(Math.abs(body.heightMm - 16)).toBeLessThan(3);
    expect(Math.abs(diameter(drawnIn(seen, body.beyondMm)) - 34)).toBeLessThan(0.6);
  });

  it("is the less sure the less is known", () => {
    const spread = (clues: Parameters<typeof fitBody>[2]) =>
      fitBody(reachOfOutline(seen), view, clues).diameterSpreadMm;
    const none = spread({ tip: null, shade: null, told: null });
    const some = spread({ tip, shade: 0.3, told: null });
    const told = spread({ tip, shade: 0.3, told: { mm: 16, spreadMm: 1.5 } });
    expect(told).toBeLessThan(some);
    expect(some).toBeLessThan(none);
  });

  it("of a stoma that throws no shade and stands low is the silhouette", () => {
    const low = silhouette(seenFrom(3), 17, { heightMm: 0.5, fullness: 3, overhang: 0 });
    const body = fitBody(reachOfOutline(low), seenFrom(3), {
      tip: null,
      shade: 0.02,
      told: { mm: 0.5, spreadMm: 0.5 },
    });
    expect(Math.abs(diameter(drawnIn(low, body.beyondMm)) - 34)).toBeLessThan(0.15);
  });
});
