import type { Point } from "../outline/index.ts";
import { type Footprint, footprintAt } from "./barrier.ts";
import { type Finding, findingWay } from "./finding.ts";
import { type RuleKind, type SitingPosture, sitingPostures } from "./kinds.ts";
import { shareAcross } from "./muscle.ts";
import { type Quadrant, quadrantAt } from "./quadrant.ts";
import type { Siting } from "./siting.ts";

/** How far a place lies from one landmark, and from breaking its limit. */
export interface Clearance {
  to: string;
  kind: RuleKind;
  /** Null: in all postures. */
  posture: SitingPosture | null;
  /** Exact distance; negative inside an area, and outside the muscle. */
  mm: number;
  limitMm: number;
  /** Distance minus limit; negative where the limit is broken. */
  slackMm: number;
}

/** The landmark that leaves a place least, in one posture. */
export interface PostureSlack {
  limiting: string;
  slackMm: number;
}

/** All that can be said of a place on the body map. */
export interface Place {
  at: Point;
  quadrant: Quadrant;
  /** To every landmark, smallest slack first. */
  clearances: Clearance[];
  /** The landmark with the smallest slack; `slackMm` is its. */
  limiting: string;
  slackMm: number;
  /** The clearances that are less than their limits. */
  complaints: Clearance[];
  postures: Partial<Record<SitingPosture, PostureSlack>>;
  /** Across the muscle on its level: 0 at the medial edge, 1 at the lateral; null outside it or where none is drawn. */
  acrossMuscle: number | null;
  barrier: Footprint;
  finding: Finding;
}

/** Measures a place against every rule: what a dragged mark shows. */
export function placeAt(siting: Siting, at: Point): Place {
  const clearances = siting.rules
    .map(({ to, kind, posture, limitMm, distanceMm }): Clearance => {
      const mm = distanceMm(...at);
      return { to, kind, posture, mm, limitMm, slackMm: mm - limitMm };
    })
    .sort((a, b) => a.slackMm - b.slackMm);
  const tightest = clearances[0]!;
  return {
    at,
    quadrant: quadrantAt(siting, at),
    clearances,
    limiting: tightest.to,
    slackMm: tightest.slackMm,
    complaints: clearances.filter(({ slackMm }) => slackMm < 0),
    postures: byPosture(siting, clearances),
    acrossMuscle: siting.muscle && shareAcross(siting.muscle, siting.midline, at),
    barrier: footprintAt(siting, at),
    finding: findingWay(siting, at),
  };
}

/** For every posture that something was marked in. */
function byPosture(siting: Siting, sorted: readonly Clearance[]): Place["postures"] {
  const marked = sitingPostures.filter((posture) => siting.rules.some((rule) => rule.posture === posture));
  return Object.fromEntries(
    marked.map((posture) => {
      const { to, slackMm } = sorted.find((one) => one.posture === null || one.posture === posture)!;
      return [posture, { limiting: to, slackMm }];
    }),
  );
}
