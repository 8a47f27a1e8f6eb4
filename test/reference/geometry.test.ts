/**
 * Outlines, offsets and pairs of outlines against shapely/GEOS and closed forms.
 * @source test/reference/data/03-geometry.json: shapely 1.8.5, GEOS 3.11.1, numpy 1.24.2; conventions inside
 */
import { describe, expect, it } from "vitest";
import { exposedSkin } from "../../src/domain/exposed/index.ts";
import { openingFor, parallelCurve } from "../../src/domain/opening/index.ts";
import {
  areaMm2,
  boundaryOf,
  grown,
  measureOutline,
  mirrorHour,
  type Outline,
  outlineOf,
  perimeterMm,
  selfViewHour,
  signedAreaMm2,
} from "../../src/domain/outline/index.ts";
import reference from "./data/03-geometry.json" with { type: "json" };

/** Polygons, relative. */
const polygonTolerance = 1e-8;
/** Offsets, relative: arcs are segments on both sides. */
const offsetTolerance = 1e-4;
/** GEOS samples its edges every 0.01 mm. */
const denseToleranceMm = 0.02;

interface Shape {
  id: string;
  vertices: [number, number][];
  ccw: boolean;
  area: number;
  perimeter: number;
  centroid: number[];
  hull_area: number;
  feret_max: number;
  feret_min: number;
  equivalent_diameter: number;
  offsets: Offset[];
  closed_form_of_the_smooth_shape?: {
    area?: number;
    perimeter?: number;
    feret_max?: number;
    feret_min?: number;
  };
}

interface Offset {
  distance: number;
  res1024: { area: number; perimeter: number; parts: number; holes: number };
  exact?: { area: number; perimeter: number };
}

interface Pair {
  id: string;
  opening: [number, number][];
  stoma: [number, number][];
  area_opening_minus_stoma: number;
  area_stoma_outside_opening: number;
  opening_contains_stoma: boolean;
  min_boundary_distance: number;
  directed_opening_to_stoma_dense: number;
}

const shapes = reference.shapes as unknown as Shape[];
const pairs = reference.pairs as unknown as Pair[];

function close(value: number, expected: number, tolerance: number): void {
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));
}

describe.each(shapes)("$id against shapely", (shape) => {
  const measures = measureOutline({ outline: shape.vertices });

  it("has the same area, perimeter, centroid, hull and calliper widths", () => {
    close(measures.areaMm2, shape.area, polygonTolerance);
    close(measures.perimeterMm, shape.perimeter, polygonTolerance);
    close(measures.centroidMm[0], shape.centroid[0]!, polygonTolerance);
    close(measures.centroidMm[1], shape.centroid[1]!, polygonTolerance);
    close(measures.convexHullAreaMm2, shape.hull_area, polygonTolerance);
    close(measures.feretMaxMm, shape.feret_max, polygonTolerance);
    close(measures.feretMinMm, shape.feret_min, polygonTolerance);
    close(measures.equivalentDiameterMm, shape.equivalent_diameter, polygonTolerance);
  });

  it("runs the same way round", () => {
    expect(signedAreaMm2(shape.vertices) > 0).toBe(shape.ccw);
    expect(signedAreaMm2(measures.outline)).toBeGreaterThan(0);
  });

  it.each(shape.offsets)("offset by $distance mm has the same area and perimeter", (offset) => {
    const { area, perimeter, parts, holes } = offset.res1024;
    const outline = outlineOf({ outline: shape.vertices });
    const region =
      offset.distance < 0 ? grown([outline], offset.distance) : [parallelCurve(outline, offset.distance)!];
    expect(region.filter((part) => signedAreaMm2(part) > 0)).toHaveLength(parts);
    // An opening has no islands: where GEOS keeps holes, only ours is filled. None of these has any.
    expect(holes).toBe(0);
    close(
      region.reduce((sum, part) => sum + signedAreaMm2(part), 0),
      area,
      offsetTolerance,
    );
    close(
      region.reduce((sum, part) => sum + perimeterMm(part), 0),
      perimeter,
      offsetTolerance,
    );
  });

  it.each(shape.offsets.filter(({ exact }) => exact))(
    "offset by $distance mm is A + P d + pi d2 in area, P + 2 pi d round",
    ({ distance, exact }) => {
      const { opening, areaMm2: area } = openingFor({
        stoma: { outline: shape.vertices },
        clearanceMm: distance,
      });
      close(area!, exact!.area, offsetTolerance);
      close(perimeterMm(opening!), exact!.perimeter, offsetTolerance);
    },
  );
});

describe("the smooth shapes behind the polygons", () => {
  it.each(shapes.filter((shape) => shape.closed_form_of_the_smooth_shape))(
    "$id: area, perimeter and widths of the closed form within 0.05 %",
    ({ vertices, closed_form_of_the_smooth_shape: closed }) => {
      const measures = measureOutline({ outline: vertices });
      const figures: [number, number | undefined][] = [
        [measures.areaMm2, closed?.area],
        [measures.perimeterMm, closed?.perimeter],
        [measures.feretMaxMm, closed?.feret_max],
        [measures.feretMinMm, closed?.feret_min],
      ];
      for (const [measured, exact] of figures) {
        if (exact !== undefined) expect(Math.abs(measured / exact - 1)).toBeLessThan(5e-4);
      }
    },
  );
});

describe.each(pairs)("$id against shapely", (pair) => {
  const skin = exposedSkin({ stoma: { outline: pair.stoma }, opening: { outline: pair.opening } });

  it("bares the same area of skin and covers the same area of stoma", () => {
    // The region is clipped to 0.00001 mm.
    expect(Math.abs(skin.exposedSkinMm2 - pair.area_opening_minus_stoma)).toBeLessThan(0.001);
    expect(Math.abs(skin.overlapMm2 - pair.area_stoma_outside_opening)).toBeLessThan(0.001);
  });

  it("has the same greatest gap", () => {
    expect(Math.abs(skin.maxGapMm - pair.directed_opening_to_stoma_dense)).toBeLessThan(denseToleranceMm);
  });

  it("has the same least gap, negative exactly where the stoma is covered", () => {
    if (pair.opening_contains_stoma || pair.id === "apart") {
      expect(Math.abs(skin.minGapMm - pair.min_boundary_distance)).toBeLessThan(1e-6);
    } else {
      expect(pair.min_boundary_distance).toBe(0);
      expect(skin.minGapMm).toBeLessThan(0);
    }
  });
});

describe("the peanut's own offset by GEOS", () => {
  it("lies within 0.01 mm of ours, both ways", () => {
    const { opening, stoma } = pairs.find(({ id }) => id === "peanut_offset_1_5")!;
    const ours = parallelCurve(outlineOf({ outline: stoma }), 1.5)!;
    const apart = (points: Outline, other: Outline) => {
      const boundary = boundaryOf(other);
      return Math.max(...points.map((point) => boundary.distanceMm(...point)));
    };
    expect(apart(ours, opening)).toBeLessThan(0.01);
    expect(apart(opening, ours)).toBeLessThan(0.01);
  });
});

describe("check values of the trade", () => {
  it("inches are 25.4 mm: 1/16, 1/8, 1/4 inch each side of 28 mm", () => {
    // arithmetic: 1.5875, 3.175, 6.35 mm
    const across = [1 / 16, 1 / 8, 1 / 4].map(
      (inches) =>
        openingFor({ stoma: { guide: { shape: "round", diameterMm: 28 } }, clearanceMm: inches * 25.4 })
          .holeAcrossMm!.max,
    );
    [31.175, 34.35, 40.7].forEach((expected, at) => {
      expect(Math.abs(across[at]! - expected)).toBeLessThan(0.001);
    });
  });

  it("mirrored hours are 11 … 1, 12, and the person who looks down sees 12, 3, 6, 9 at 6, 9, 12, 3", () => {
    // arithmetic: h' = (12 - h) mod 12 and (h + 6) mod 12
    expect(Array.from({ length: 12 }, (_, at) => mirrorHour(at + 1))).toEqual([
      11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 12,
    ]);
    expect([12, 3, 6, 9].map(selfViewHour)).toEqual([6, 9, 12, 3]);
  });

  it("a band from 15 to 25 mm over 90 degrees is 314.159 mm2", () => {
    // A = (arc/360) x pi x (R_out2 - R_in2)
    const ring = (diameterMm: number) => areaMm2(outlineOf({ guide: { shape: "round", diameterMm } }));
    expect(Math.abs((ring(50) - ring(30)) / 4 / 314.159 - 1)).toBeLessThan(1e-4);
  });
});
