import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import type Geometry from "jsts/org/locationtech/jts/geom/Geometry.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import UnaryUnionOp from "jsts/org/locationtech/jts/operation/union/UnaryUnionOp.js";
import type { Outline, Point } from "../../src/domain/outline/index.ts";
import { defaultProtocol } from "../../src/domain/protocol/index.ts";
import {
  bestPlaces,
  type Landmark,
  neededPostures,
  placeAt,
  pointsOf,
  prepareSiting,
  regionMm2,
  regionOf,
  type SitingQuestion,
} from "../../src/domain/siting/index.ts";

type Print = (line: string) => void;

const landmarksEach = 60;
const rounds = 15;
const mostMs = 50;
/** Sides a quarter circle that keep an arc of 50 mm within 0.01 mm. */
const quarterSides = 40;

/**
 * Region and best place of a map of 60 landmarks, each somewhere else in each of four postures, as when a landmark is
 * dragged and all is worked out anew; and the judging of one mark, as when the mark is dragged. The peer buffers the
 * same landmarks and subtracts them from the same muscle. By processor time; they take turns, medians of fifteen.
 */
export function benchSiting(print: Print): void {
  const question = crowdedMap();
  const siting = prepareSiting(question, defaultProtocol);
  const peer = jstsRegion(siting);
  const ways = {
    region: () => regionOf(prepareSiting(question, defaultProtocol)),
    both: () => {
      const fresh = prepareSiting(question, defaultProtocol);
      return [regionOf(fresh), bestPlaces(fresh, 1)];
    },
    mark: () => placeAt(siting, [-42, -60]),
    jsts: () => peer(),
  };
  const { region, both, mark, jsts } = medianMs(ways);
  const apart = regionMm2(ways.region()) / peer().getArea() - 1;
  print(
    `${siting.rules.length} rules, ${siting.landmarks.reduce((sum, { shape }) => sum + pointsOf(shape).length, 0)} points`,
  );
  print(
    `region and best place ${both.toFixed(1)} ms (must be at most ${mostMs}: ${both <= mostMs ? "yes" : "NO"}); ` +
      `one mark judged ${mark.toFixed(2)} ms`,
  );
  print(
    `region alone ${region.toFixed(1)} ms, by buffer and difference of jsts 2.12.1 ${jsts.toFixed(1)} ms ` +
      `(jsts/ours ${(jsts / region).toFixed(1)}); areas differ by ${(100 * Math.abs(apart)).toFixed(3)} %`,
  );
}

function medianMs<K extends string>(ways: Record<K, () => unknown>): Record<K, number> {
  const names = Object.keys(ways) as K[];
  const figures = new Map(names.map((name) => [name, [] as number[]]));
  for (let round = 0; round < rounds; round += 1) {
    for (const name of names) figures.get(name)!.push(processorMs(ways[name]));
  }
  const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;
  return Object.fromEntries(names.map((name) => [name, median(figures.get(name)!)])) as Record<K, number>;
}

/** Of three runs in a row, so that the clock's step counts little. */
function processorMs(work: () => unknown): number {
  const before = process.cpuUsage();
  for (let run = 0; run < 3; run += 1) work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 3000;
}

/** Creases and scars round an adult's muscles, some across them, each moved a little by each posture. */
function crowdedMap(): SitingQuestion {
  const chance = unevenNumbers();
  const marks = Array.from({ length: landmarksEach - 4 }, (_, at) => {
    const side = at % 2 ? 1 : -1;
    const outside = at % 4 < 3;
    const [x, y] = outside
      ? [side * (118 + 40 * chance()), 280 * chance() - 140]
      : [side * 100 * chance(), (at % 8 < 4 ? 118 : -150) + 20 * chance()];
    return { kind: at % 3 ? "crease" : "scar", at: [x, y] } as const;
  });
  return {
    stomaType: "ileostomy",
    barrierDiameterMm: 75,
    clearanceMm: 40,
    landmarks: [
      ...[-1, 1].map(
        (side): Landmark => ({ kind: "muscle", shape: { area: muscle.map(([x, y]) => [side * x, y]) } }),
      ),
      { kind: "hipBone", shape: { point: [-125, -78] } },
      { kind: "hipBone", shape: { point: [125, -78] } },
      ...marks.flatMap(({ kind, at: [x, y] }) =>
        neededPostures.map(
          (posture): Landmark => ({
            kind,
            posture,
            shape: { line: wanderingLine([x + 6 * chance(), y + 6 * chance()], chance) },
          }),
        ),
      ),
    ],
  };
}

const muscle: Outline = [
  [8, -130],
  [46, -130],
  [72, -40],
  [76, 40],
  [74, 140],
  [8, 140],
];

function wanderingLine([x, y]: Point, chance: () => number): Point[] {
  const turn = 2 * Math.PI * chance();
  return Array.from(
    { length: 12 },
    (_, at): Point => [
      x + 3.5 * at * Math.cos(turn) + 2 * chance(),
      y + 3.5 * at * Math.sin(turn) + 2 * chance(),
    ],
  );
}

/** Always the same uneven numbers from 0 to 1. */
function unevenNumbers(): () => number {
  let at = 0;
  return () => {
    at += 1;
    const uneven = Math.sin(12.9898 * at) * 43758.5453;
    return uneven - Math.floor(uneven);
  };
}

/** The muscle minus every buffered landmark, as the rules ask. */
function jstsRegion({ rules, landmarks }: ReturnType<typeof prepareSiting>): () => Geometry {
  const factory = new GeometryFactory();
  const coordinates = (points: readonly Point[]) => points.map(([x, y]) => new Coordinate(x, y));
  const muscles = landmarks.flatMap(({ kind, shape }) =>
    kind === "muscle" && "area" in shape
      ? [factory.createPolygon(coordinates([...shape.area, shape.area[0]!]))]
      : [],
  );
  const marks = rules
    .filter(({ kind }) => kind !== "muscle")
    .map(({ landmark: { shape }, limitMm }) => ({
      geometry:
        "point" in shape
          ? factory.createPoint(new Coordinate(...shape.point))
          : factory.createLineString(coordinates(pointsOf(shape))),
      limitMm,
    }));
  return () => {
    const buffers = marks.map(({ geometry, limitMm }) => BufferOp.bufferOp(geometry, limitMm, quarterSides));
    const taken = UnaryUnionOp.union(factory.createGeometryCollection(buffers));
    return OverlayOp.difference(factory.createMultiPolygon(muscles), taken);
  };
}
