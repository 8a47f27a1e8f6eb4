import { type Outline, outlineOf, type Point } from "../outline/index.ts";
import type { Protocol } from "../protocol/index.ts";
import { bodyMap, type TapeReadings } from "./bodyMap.ts";
import type { LandmarkKind, SitingPosture } from "./kinds.ts";
import type { Landmark, LandmarkShape } from "./landmark.ts";
import { placedBy, registerPosture, type SharedMark } from "./register.ts";
import type { SitingQuestion } from "./siting.ts";

/** A landmark as it stands in a document: its points alone, or with what they are and a label. */
export type Drawn = readonly Point[] | ({ label?: string | undefined } & LandmarkShape);

/** In all postures, or by the posture in which it was seen. */
export type InPostures<T> = T | { readonly [posture in SitingPosture]?: T | undefined };

type Several = InPostures<readonly Drawn[]>;
type One = InPostures<readonly Point[] | { area: Outline }>;

/** The landmarks by what they are; coordinates in mm, navel = origin, x to the person's left, y to the head. */
export interface LandmarkGroups {
  midline?: readonly Point[] | undefined;
  muscleBorder?: Several | undefined;
  hipBones?: { right?: Point | undefined; left?: Point | undefined } | undefined;
  bones?: Several | undefined;
  scars?: Several | undefined;
  creases?: Several | undefined;
  folds?: Several | undefined;
  beltLine?: One | undefined;
  /** What lies on the foot side of the line, or in the area, is not seen. */
  visibleLimit?: One | undefined;
  reachLimit?: One | undefined;
  hernias?: Several | undefined;
  radiation?: Several | undefined;
  prostheses?: Several | undefined;
  braces?: Several | undefined;
  avoid?: Several | undefined;
  /** Stomas that are there, or marks already chosen for another. */
  stomas?:
    | readonly { at: Point; barrierDiameterMm?: number | undefined; label?: string | undefined }[]
    | undefined;
}

/** The complete JSON form of a question. */
export interface SitingDocument extends Omit<SitingQuestion, "landmarks"> {
  landmarks: LandmarkGroups;
  /** Tape readings: they place hip bones, pubis and rib margins beside what `landmarks` gives. */
  readings?: TapeReadings | undefined;
  /** For postures whose landmarks are given in their own picture's mm: where shared landmarks lie in both. */
  registrations?:
    | {
        readonly [posture in SitingPosture]?:
          | { method: "similarity" | "affine"; marks: readonly SharedMark[] }
          | undefined;
      }
    | undefined;
  marks?: readonly Point[] | undefined;
}

const kinds = {
  muscleBorder: "muscle",
  bones: "bone",
  scars: "scar",
  creases: "crease",
  folds: "fold",
  beltLine: "beltLine",
  visibleLimit: "sightLimit",
  reachLimit: "reachLimit",
  hernias: "hernia",
  radiation: "radiation",
  prostheses: "prosthesis",
  braces: "brace",
  avoid: "avoid",
} as const satisfies Partial<Record<keyof LandmarkGroups, LandmarkKind>>;

/** Kinds whose bare points go round an area. */
const areas: readonly LandmarkKind[] = ["muscle", "hernia", "radiation", "prosthesis", "brace"];

/** @throws InputError where an area is no outline, or a posture cannot be registered */
export function questionOf(
  document: SitingDocument,
  protocol: Protocol,
): SitingQuestion & Pick<SitingDocument, "marks"> {
  const { landmarks: groups, readings, registrations, ...asked } = document;
  const landmarks = [...landmarksOf(groups), ...(readings ? bodyMap(readings, protocol).landmarks : [])];
  return { ...asked, landmarks: onMap(landmarks, registrations ?? {}) };
}

function landmarksOf(groups: LandmarkGroups): Landmark[] {
  const { midline, hipBones = {}, stomas = [] } = groups;
  const named = (Object.keys(kinds) as (keyof typeof kinds)[]).flatMap((group) => {
    const given = groups[group];
    return given ? inPostures(given, kinds[group], `landmarks.${group}`) : [];
  });
  return [
    ...(midline ? [{ kind: "midline", shape: { line: midline } } as const] : []),
    ...named,
    ...(["right", "left"] as const).flatMap((side) => {
      const point = hipBones[side];
      return point ? [{ kind: "hipBone", label: `${side} hip bone`, shape: { point } } as const] : [];
    }),
    ...stomas.map(({ at, ...rest }): Landmark => ({ kind: "otherStoma", shape: { point: at }, ...rest })),
  ];
}

function inPostures(given: Several | One, kind: LandmarkKind, path: string): Landmark[] {
  if (isDrawn(given)) return drawnIn(given, kind, path);
  return (Object.entries(given) as [SitingPosture, Several | One | undefined][]).flatMap(
    ([posture, drawn]) =>
      drawn && isDrawn(drawn)
        ? drawnIn(drawn, kind, `${path}.${posture}`).map((landmark) => ({ ...landmark, posture }))
        : [],
  );
}

type InOnePosture = readonly Drawn[] | readonly Point[] | { area: Outline };

function isDrawn(given: Several | One): given is InOnePosture {
  return Array.isArray(given) || "area" in given;
}

/** A list of landmarks, or one landmark alone: its points, or an area. */
function drawnIn(drawn: InOnePosture, kind: LandmarkKind, path: string): Landmark[] {
  if ("area" in drawn) return [landmarkOf(drawn, kind, path)];
  if (isLine(drawn)) return [landmarkOf(drawn, kind, path)];
  return drawn.map((one, at) => landmarkOf(one, kind, `${path}.${at}`));
}

function isLine(drawn: readonly Drawn[] | readonly Point[]): drawn is readonly Point[] {
  const first = drawn[0];
  return Array.isArray(first) && typeof first[0] === "number";
}

function landmarkOf(drawn: Drawn, kind: LandmarkKind, path: string): Landmark {
  if ("length" in drawn) return { kind, shape: shapeOf(drawn, kind, path) };
  const { label, ...shape } = drawn;
  return { kind, label, shape: "area" in shape ? { area: outlineOf({ outline: shape.area }, path) } : shape };
}

function shapeOf(points: readonly Point[], kind: LandmarkKind, path: string): LandmarkShape {
  if (areas.includes(kind)) return { area: outlineOf({ outline: points }, path) };
  return points.length === 1 ? { point: points[0]! } : { line: points };
}

function onMap(
  landmarks: readonly Landmark[],
  registrations: NonNullable<SitingDocument["registrations"]>,
): Landmark[] {
  const maps = new Map(
    Object.entries(registrations).flatMap(([posture, given]) =>
      given
        ? [[posture, registerPosture(given.marks, given.method, `registrations.${posture}.marks`)] as const]
        : [],
    ),
  );
  return landmarks.map((landmark) => {
    const map = landmark.posture && maps.get(landmark.posture);
    return map ? placedBy(map, landmark) : landmark;
  });
}
