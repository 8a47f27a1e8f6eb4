/**
 * Distances, buffers and poles of inaccessibility against shapely/GEOS.
 * @source test/reference/data/siting.json: shapely 1.8.5, GEOS 3.11.1, made by test/reference/siting.py; conventions
 * inside. The pole is shapely's polylabel, an independent search over the finished polygons.
 */
import { describe, expect, it } from "vitest";
import {
  difference,
  grown,
  type Outline,
  type Point,
  signedAreaMm2,
} from "../../src/domain/outline/index.ts";
import { coarseLevels, gridBox, regionWhere } from "../../src/domain/siting/contour.ts";
import {
  type DistanceMm,
  fromPoint,
  fromRegion,
  fromSegment,
  type LandmarkShape,
  regionMm2,
} from "../../src/domain/siting/index.ts";
import { coarseCells, highestPoint, rootCell, type SlackMm } from "../../src/domain/siting/search.ts";
import reference from "./data/siting.json" with { type: "json" };

/** Shapely rounds its results to nine decimals here. */
const distanceToleranceMm = 1e-8;
/** GEOS draws a circle as 2,048 sides; ours has sides of about a millimetre and cuts a muscle's corners by less. */
const areaShare = 3e-4;
const poleToleranceMm = 0.03;

type Mark = LandmarkShape & { limit?: number };
interface RegionCase {
  name: string;
  area: Outline;
  marks: (LandmarkShape & { limit: number })[];
  expected: { area: number; parts: number; holes: number; pole: { at: Point; clearance: number } };
}

const distanceCases = reference.distances as unknown as {
  name: string;
  mark: Mark;
  places: { at: Point; outside: number; edge: number }[];
}[];
const regionCases = reference.regions as unknown as RegionCase[];

/** The least of these is the distance. */
function partsOf(mark: Mark): DistanceMm[] {
  if ("point" in mark) return [fromPoint(mark.point)];
  if ("area" in mark) return [fromRegion([mark.area])];
  return mark.line.slice(1).map((to, at) => fromSegment(mark.line[at]!, to));
}

describe.each(distanceCases)("distances from $name", ({ mark, places }) => {
  it.each(places)("at $at are shapely's", ({ at, outside, edge }) => {
    const distance = Math.min(...partsOf(mark).map((part) => part(...at)));
    expect(Math.abs(Math.max(0, distance) - outside)).toBeLessThan(distanceToleranceMm);
    expect(Math.abs(Math.abs(distance) - edge)).toBeLessThan(distanceToleranceMm);
  });
});

/** The squares that both answers start from, each landmark with its own limit. */
function mapOf({ area, marks }: RegionCase) {
  const depth = fromRegion([area]);
  const [xs, ys] = [area.map(([x]) => x), area.map(([, y]) => y)];
  const box = gridBox({
    left: Math.min(...xs),
    right: Math.max(...xs),
    foot: Math.min(...ys),
    head: Math.max(...ys),
  });
  const slacks: SlackMm[] = [
    (x, y) => -depth(x, y),
    ...marks.flatMap(({ limit, ...mark }) =>
      partsOf(mark).map(
        (part): SlackMm =>
          (x, y) =>
            part(x, y) - limit,
      ),
    ),
  ];
  return { box, cells: coarseCells(rootCell(box, slacks), coarseLevels) };
}

describe.each(regionCases)("$name", (given) => {
  const { box, cells } = mapOf(given);
  const { expected } = given;

  it("leaves the region that shapely leaves: area, parts and holes", () => {
    const region = regionWhere(cells, box);
    expect(Math.abs(regionMm2(region) / expected.area - 1)).toBeLessThan(areaShare);
    expect(region.filter((part) => signedAreaMm2(part) > 0)).toHaveLength(expected.parts);
    expect(region.filter((part) => signedAreaMm2(part) < 0)).toHaveLength(expected.holes);
  });

  it("has its pole of inaccessibility where polylabel has it", () => {
    const pole = highestPoint({ cells, leastMm: 0 })!;
    expect(Math.abs(pole.slackMm - expected.pole.clearance)).toBeLessThan(poleToleranceMm);
  });
});

describe("the general region arithmetic of outlines, by clipper2", () => {
  it.each(regionCases.filter(({ marks }) => marks.length > 0 && marks.every((mark) => "area" in mark)))(
    "$name: buffers and difference leave the same area",
    ({ area, marks, expected }) => {
      const left = marks.reduce(
        (region, mark) => ("area" in mark ? difference(region, grown([mark.area], mark.limit)) : region),
        [area] as readonly Outline[],
      );
      expect(Math.abs(regionMm2(left) / expected.area - 1)).toBeLessThan(1e-5);
    },
  );
});
