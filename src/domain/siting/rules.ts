import type { Outline } from "../outline/index.ts";
import type { Protocol } from "../protocol/index.ts";
import { type DistanceMm, footSideOf, fromPoint, fromRegion, fromSegment } from "./distance.ts";
import { kindFacts, type RuleKind, type SitingPosture } from "./kinds.ts";
import type { Landmark, LandmarkShape } from "./landmark.ts";
import type { Limits } from "./limits.ts";
import { muscleIn } from "./muscle.ts";
import type { SlackMm } from "./search.ts";

/** One thing that a place is held to: so far at least from one landmark, in one posture or in all. */
export interface Rule {
  kind: RuleKind;
  landmark: Landmark;
  posture: SitingPosture | null;
  /** The landmark in words, as "scar 2" or its own label. */
  to: string;
  limitMm: number;
  /** Place in the order of sacrifice. */
  giveUp: number;
  /** Exact distance; negative inside an area, and outside the muscle. */
  distanceMm: DistanceMm;
  /** Distance minus limit, in parts: the least of them is the rule's slack. */
  slacks: readonly SlackMm[];
}

/** A rule for each landmark, two for another stoma; muscle areas of one posture are one rule together. */
export function rulesFor(
  landmarks: readonly Landmark[],
  limits: Limits,
  protocol: Protocol,
  barrierDiameterMm: number | undefined,
): Rule[] {
  const names = namesOf(landmarks);
  const nameOf = (landmark: Landmark) => names.get(landmark) ?? kindFacts[landmark.kind].word;
  const rule = (landmark: Landmark, kind: RuleKind, limitMm: number, parts: DistanceMm[]): Rule => ({
    kind,
    landmark,
    posture: landmark.posture ?? null,
    to: kind === "otherLevel" ? `level of ${nameOf(landmark)}` : nameOf(landmark),
    limitMm,
    giveUp: protocol[kindFacts[kind].giveUp],
    distanceMm: (x, y) => Math.min(...parts.map((part) => part(x, y))),
    slacks: parts.map((part) => (x, y) => part(x, y) - limitMm),
  });
  const others = landmarks.filter(({ kind }) => kind !== "muscle");
  return [
    ...muscleRules(landmarks, (landmark, part) => rule(landmark, "muscle", limits.of("muscle"), [part])),
    ...others.flatMap((landmark) => {
      if (landmark.kind !== "otherStoma") {
        return [rule(landmark, landmark.kind, limits.of(landmark.kind), partsOf(landmark))];
      }
      const roomMm = roomBetween(barrierDiameterMm, landmark.barrierDiameterMm, protocol);
      return [
        rule(landmark, "otherStoma", roomMm, partsOf(landmark)),
        rule(landmark, "otherLevel", limits.of("otherLevel"), [levelOf(landmark.shape)]),
      ];
    }),
  ];
}

function muscleRules(
  landmarks: readonly Landmark[],
  rule: (landmark: Landmark, part: DistanceMm) => Rule,
): Rule[] {
  const postures = new Set(
    landmarks.filter(({ kind }) => kind === "muscle").map(({ posture }) => posture ?? null),
  );
  return [...postures].map((posture) => {
    const inside = fromRegion(muscleIn(landmarks, posture));
    const first = landmarks.find((mark) => mark.kind === "muscle" && (mark.posture ?? null) === posture)!;
    return rule({ ...first, label: undefined }, (x, y) => -inside(x, y));
  });
}

function partsOf({ kind, shape }: Landmark): DistanceMm[] {
  if ("point" in shape) return [fromPoint(shape.point)];
  if ("area" in shape) return [fromRegion([shape.area])];
  if (kind === "sightLimit" || kind === "reachLimit") return [fromRegion([footSideOf(shape.line)])];
  return shape.line.length === 1
    ? [fromPoint(shape.line[0]!)]
    : shape.line.slice(1).map((to, at) => fromSegment(shape.line[at]!, to));
}

/** Up or down from another stoma. */
function levelOf(shape: LandmarkShape): DistanceMm {
  const y0 = "point" in shape ? shape.point[1] : middleY("line" in shape ? shape.line : shape.area);
  return (_x, y) => Math.abs(y - y0);
}

function middleY(points: Outline): number {
  return points.reduce((sum, [, y]) => sum + y, 0) / points.length;
}

/** Two barriers side by side without overlap; one of unknown size takes the least even skin of the protocol. */
function roomBetween(own: number | undefined, other: number | undefined, protocol: Protocol): number {
  const unknown = protocol.siteFlatAcrossMm;
  return ((own ?? unknown) + (other ?? own ?? unknown)) / 2;
}

/** "scar", or "scar 2" where there are several; a landmark's own label where it has one. */
function namesOf(landmarks: readonly Landmark[]): Map<Landmark, string> {
  const names = new Map<Landmark, string>();
  for (const kind of new Set(landmarks.map((landmark) => landmark.kind))) {
    const ofKind = landmarks.filter((landmark) => landmark.kind === kind);
    ofKind.forEach((landmark, at) => {
      const number = ofKind.length > 1 && kind !== "muscle" ? ` ${at + 1}` : "";
      names.set(landmark, landmark.label ?? `${kindFacts[kind].word}${number}`);
    });
  }
  return names;
}
