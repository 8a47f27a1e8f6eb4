import { type Note, note } from "../note.ts";
import type { Point } from "../outline/index.ts";
import type { Protocol } from "../protocol/index.ts";
import { kindFacts, type RuleKind } from "./kinds.ts";
import { type Landmark, pointsOf } from "./landmark.ts";

/** The clearance asked for each kind of landmark, mm, and what had to be said about it. */
export interface Limits {
  of(kind: RuleKind): number;
  notes: readonly Note[];
}

/**
 * Limits for one body: the protocol's, the asked clearance in place of those that the guideline names together, and
 * the caller's own over both. The midline's is a share of the body's width; on a small body the protocol's own shrink.
 */
export function limitsFor(
  landmarks: readonly Landmark[],
  protocol: Protocol,
  {
    clearanceMm,
    own = {},
  }: { clearanceMm?: number | undefined; own?: Partial<Record<RuleKind, number>> | undefined },
): Limits {
  const hipMm = hipToHipMm(landmarks);
  const smallMm = protocol.siteSmallBodyHipMm;
  const share = hipMm !== null && hipMm < smallMm ? hipMm / smallMm : 1;
  const midline = midlineLimit(landmarks, hipMm, protocol);
  const notes = [...midline.notes, ...(share < 1 ? [smallBodyNote(hipMm!, share)] : [])];
  const fixed: Partial<Record<RuleKind, number>> = {
    midline: midline.limitMm,
    otherLevel: protocol.siteLevelsMm * share,
  };
  return {
    notes,
    of(kind) {
      const { limit, general } = kindFacts[kind];
      const given = own[kind] ?? fixed[kind] ?? (general ? clearanceMm : undefined);
      return given ?? (limit === null ? 0 : protocol[limit] * share);
    },
  };
}

function smallBodyNote(hipMm: number, share: number): Note {
  return note(
    "smallBody",
    `${mm(hipMm)} from hip bone to hip bone: the protocol's clearances are taken times ${share.toFixed(2)}. The guidelines give none for children; the surgeon decides.`,
    { hipToHipMm: hipMm, share },
  );
}

function midlineLimit(
  landmarks: readonly Landmark[],
  hipMm: number | null,
  { siteMidlineMostMm, siteMidlineShareOfHip, siteMidlineShareOfMuscle }: Protocol,
): { limitMm: number; notes: Note[] } {
  if (hipMm !== null)
    return { limitMm: Math.min(siteMidlineMostMm, hipMm * siteMidlineShareOfHip), notes: [] };
  const reachMm = muscleReachMm(landmarks);
  if (reachMm === null) return { limitMm: siteMidlineMostMm, notes: [] };
  const limitMm = Math.min(siteMidlineMostMm, reachMm * siteMidlineShareOfMuscle);
  const text = `No hip bones are marked: ${mm(limitMm)} are kept from the midline, going by the muscle's reach of ${mm(reachMm)}.`;
  return { limitMm, notes: [note("midlineByMuscle", text, { limitMm, reachMm })] };
}

/** Distance between the outermost hip bones to either side; null without one on each side. */
export function hipToHipMm(landmarks: readonly Landmark[]): number | null {
  const bones = landmarks.filter(({ kind }) => kind === "hipBone").flatMap(({ shape }) => pointsOf(shape));
  const [right, left] = [outermost(bones, -1), outermost(bones, 1)];
  if (!right || !left) return null;
  return Math.hypot(left[0] - right[0], left[1] - right[1]);
}

/** The bone farthest out on the person's right (−1) or left (1) of the navel. */
function outermost(bones: readonly Point[], side: -1 | 1): Point | null {
  const onSide = bones.filter(([x]) => x * side > 0);
  return onSide.reduce<Point | null>(
    (far, bone) => (far && far[0] * side >= bone[0] * side ? far : bone),
    null,
  );
}

function muscleReachMm(landmarks: readonly Landmark[]): number | null {
  const xs = landmarks
    .filter(({ kind }) => kind === "muscle")
    .flatMap(({ shape }) => pointsOf(shape).map(([x]) => Math.abs(x)));
  return xs.length > 0 ? Math.max(...xs) : null;
}

function mm(value: number): string {
  return `${Math.round(value)} mm`;
}
