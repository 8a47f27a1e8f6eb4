import { refuse } from "../fault.ts";
import type { Note } from "../note.ts";
import type { Outline, Point, Region } from "../outline/index.ts";
import type { Protocol } from "../protocol/index.ts";
import { coarseLevels, gridBox, regionWhere } from "./contour.ts";
import { fromRegion } from "./distance.ts";
import type { RuleKind, SitingPosture } from "./kinds.ts";
import { type Landmark, pointsOf } from "./landmark.ts";
import { limitsFor } from "./limits.ts";
import { middleOf, muscleIn } from "./muscle.ts";
import { type Quadrant, quadrantOrder } from "./quadrant.ts";
import { type Rule, rulesFor } from "./rules.ts";
import { type Box, type Cell, coarseCells, rootCell, type SlackMm } from "./search.ts";

export type PlannedStoma = "ileostomy" | "colostomy" | "urostomy" | "fistula" | "other";

/** A body map and what is planned on it. */
export interface SitingQuestion {
  /** The navel is added at the origin, the midline straight through it, where they are not among them. */
  landmarks: readonly Landmark[];
  stomaType: PlannedStoma;
  /** Stands in place of the clearances that the guideline names together: navel, bones, scars, creases, folds. */
  clearanceMm?: number | undefined;
  barrierDiameterMm?: number | undefined;
  /** The surgeon's own choice, over the usual one for the procedure. */
  quadrant?: Quadrant | undefined;
  /** A large or hanging abdomen: upper sites are seen and lie on thinner fat. */
  largeAbdomen?: boolean | undefined;
  /** Limits for this body alone, mm. */
  limits?: Partial<Record<RuleKind, number>> | undefined;
}

/** A body map made ready for many questions: where is the region, what does a place keep, which are the best. */
export interface Siting {
  question: SitingQuestion;
  protocol: Protocol;
  landmarks: readonly Landmark[];
  rules: readonly Rule[];
  midline: readonly Point[];
  /** As drawn for all postures, else in the first posture that has one; null where none is drawn. */
  muscle: Region | null;
  middle: Region;
  quadrants: readonly Quadrant[];
  /** The part of the map that is searched: the muscle's, or that of all landmarks. */
  box: Box;
  /** Squares in which every rule may be kept, with the slacks that matter there. */
  cells: readonly Cell[];
  notes: readonly Note[];
}

/** Reaches past every landmark to head and foot. */
const farMm = 1e4;

/** @throws InputError where the landmarks enclose no area to look in */
export function prepareSiting(question: SitingQuestion, protocol: Protocol): Siting {
  const landmarks = withOwnMiddle(question.landmarks);
  const limits = limitsFor(landmarks, protocol, { clearanceMm: question.clearanceMm, own: question.limits });
  const rules = rulesFor(landmarks, limits, protocol, question.barrierDiameterMm);
  const midline = pointsOf(landmarks.find(({ kind }) => kind === "midline")!.shape);
  const muscle = firstMuscle(landmarks);
  const box = boxRound(
    muscle ? muscle.flat() : landmarks.flatMap(({ shape }) => pointsOf(shape).filter(isNear)),
  );
  return {
    question,
    protocol,
    landmarks,
    rules,
    midline,
    muscle,
    middle: muscle ? middleOf(muscle, midline, protocol.siteMidMuscleShare) : [],
    quadrants: quadrantOrder(question),
    box,
    cells: cellsFor(box, slacksOf(rules)),
    notes: limits.notes,
  };
}

function withOwnMiddle(landmarks: readonly Landmark[]): Landmark[] {
  const has = (kind: Landmark["kind"]) => landmarks.some((landmark) => landmark.kind === kind);
  const straight: Outline = [
    [0, -farMm],
    [0, farMm],
  ];
  return [
    ...(has("navel") ? [] : [{ kind: "navel", shape: { point: [0, 0] } } as const]),
    ...(has("midline") ? [] : [{ kind: "midline", shape: { line: straight } } as const]),
    ...landmarks,
  ];
}

function isNear([x, y]: Point): boolean {
  return Math.abs(x) < farMm && Math.abs(y) < farMm;
}

function firstMuscle(landmarks: readonly Landmark[]): Region | null {
  const first = landmarks.find(({ kind, posture }) => kind === "muscle" && posture === undefined);
  const any = first ?? landmarks.find(({ kind }) => kind === "muscle");
  return any ? muscleIn(landmarks, any.posture ?? null) : null;
}

function boxRound(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const box = { left: Math.min(...xs), right: Math.max(...xs), foot: Math.min(...ys), head: Math.max(...ys) };
  if (!(box.right - box.left > 1 && box.head - box.foot > 1)) {
    refuse(
      "landmarks",
      "enclose no area to look in",
      points.length,
      "a muscle border, or landmarks on all sides",
    );
  }
  return box;
}

/** The slacks of rules, of which those of a posture left out may be dropped. */
export function slacksOf(rules: readonly Rule[], without?: SitingPosture): SlackMm[] {
  return rules.flatMap(({ posture, slacks }) => (without !== undefined && posture === without ? [] : slacks));
}

/** How deep in the searched part of the map a place lies. */
export function insideBox({ left, right, foot, head }: Box): SlackMm {
  return (x, y) => Math.min(x - left, right - x, y - foot, head - y);
}

/** How deep in a region a place lies. */
export function insideRegion(region: Region): SlackMm {
  const distance = fromRegion(region);
  return (x, y) => -distance(x, y);
}

/** The whole map as one square, with the slacks of rules; the searched part's edge counts as a limit. */
export function wholeMap(box: Box, slacks: readonly SlackMm[]): Cell {
  return rootCell(gridBox(box), [insideBox(box), ...slacks]);
}

function cellsFor(box: Box, slacks: readonly SlackMm[]): Cell[] {
  return coarseCells(wholeMap(box, slacks), coarseLevels);
}

/** All places that keep every rule. */
export function regionOf({ cells, box }: Siting): Region {
  return regionWhere(cells, gridBox(box));
}

/** All places that keep every rule but those of one posture. */
export function regionWithout({ rules, box }: Siting, posture: SitingPosture): Region {
  return regionWhere(cellsFor(box, slacksOf(rules, posture)), gridBox(box));
}
