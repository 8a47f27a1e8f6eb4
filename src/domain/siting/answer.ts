import type { Note } from "../note.ts";
import type { Point, Region } from "../outline/index.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { bestIn, bestPlaces } from "./best.ts";
import { type Conflict, conflictIn } from "./conflict.ts";
import type { RuleKind, SitingPosture } from "./kinds.ts";
import { leastBadPlaces } from "./leastBad.ts";
import { notesOn } from "./notes.ts";
import { type Place, placeAt } from "./place.ts";
import { regionMm2, takenByPosture } from "./postures.ts";
import { insideQuadrant, type Quadrant } from "./quadrant.ts";
import { prepareSiting, regionOf, type Siting, type SitingQuestion } from "./siting.ts";

/** As many places as are offered. */
const mostPlaces = 3;

export interface Candidate extends Place {
  rank: number;
}

export interface SitingAnswer {
  /** Places that keep every limit, best first; empty where there is none. */
  candidates: Candidate[];
  /** All places that keep every limit: outer edges counterclockwise, holes clockwise. */
  region: Region;
  regionMm2: number;
  wantedQuadrant: Quadrant;
  /** Why no place of the wanted quadrant keeps every limit; null where one does. */
  conflict: (Conflict & { quadrant: Quadrant; leastBad: Candidate[] }) | null;
  takenByPosture: { posture: SitingPosture; takenMm2: number; regionWithout: Region }[];
  /** What each rule asks, one line for each landmark and posture. */
  limits: { to: string; kind: RuleKind; posture: SitingPosture | null; limitMm: number; giveUp: number }[];
  /** Places that the caller asked about, in the order given. */
  marks: Place[];
  notes: Note[];
}

/**
 * Where a stoma may go: the region, the best places in it, and why there is none if so.
 *
 * @param question with the places to judge beside, as `marks`
 * @throws InputError where the landmarks enclose no area to look in
 */
export function siting(
  question: SitingQuestion & { marks?: readonly Point[] | undefined },
  protocol: Protocol = defaultProtocol,
): SitingAnswer {
  const map = prepareSiting(question, protocol);
  const region = regionOf(map);
  const wantedQuadrant = map.quadrants[0]!;
  const candidates = bestPlaces(map, mostPlaces).map(ranked(map));
  const conflict = conflictOf(map, wantedQuadrant);
  return {
    candidates,
    region,
    regionMm2: regionMm2(region),
    wantedQuadrant,
    conflict,
    takenByPosture: takenByPosture(map),
    limits: map.rules.map(({ to, kind, posture, limitMm, giveUp }) => ({
      to,
      kind,
      posture,
      limitMm,
      giveUp,
    })),
    marks: (question.marks ?? []).map((at) => placeAt(map, at)),
    notes: notesOn(map, candidates, conflict !== null),
  };
}

function ranked(map: Siting): (at: Point, index: number) => Candidate {
  return (at, index) => ({ rank: index + 1, ...placeAt(map, at) });
}

function conflictOf(map: Siting, quadrant: Quadrant): SitingAnswer["conflict"] {
  const within = insideQuadrant(map, quadrant);
  if (bestIn(map, within)) return null;
  const conflict = conflictIn(map, within);
  if (!conflict) return null;
  return { quadrant, ...conflict, leastBad: leastBadPlaces(map, within, mostPlaces).map(ranked(map)) };
}
