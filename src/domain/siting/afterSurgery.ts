import { type Note, note } from "../note.ts";
import { clockHourAt, distanceMm, type Point } from "../outline/index.ts";
import { type Landmark, pointsOf } from "./landmark.ts";

/** What was planned for one person and what came of it; all places on the same body map. */
export interface SitedPerson {
  id: string;
  landmarks: readonly Landmark[];
  marks: readonly { rank: number; at: Point }[];
  /** The middle of the stoma as it was made; null while it is not known on the map. */
  stomaAt: Point | null;
  /** Clock hours at which barriers leaked, one for each hour of each leak. */
  leakHours: readonly number[];
}

export interface PersonAfterSurgery {
  id: string;
  /** From the nearest mark to the stoma. */
  planned: { rank: number; apartMm: number; leftMm: number; headMm: number } | null;
  /** The crease or fold nearest to the stoma. */
  crease: { awayMm: number; hour: number } | null;
  /** Leaks by how many clock hours they lie from it, 0 to 6. */
  leaksByHoursApart: number[];
}

/** A clinic's own marks against what came of them. */
export interface AfterSurgery {
  people: PersonAfterSurgery[];
  /** Over people whose stoma is on the map. */
  apart: { people: number; medianMm: number | null; largestMm: number | null; atFirstRank: number };
  /** Over people with a crease and a leak; `evenShare` is what leaks spread evenly round the clock would give. */
  leaks: { hoursApart: number; leaks: number; share: number | null; evenShare: number }[];
  notes: Note[];
}

const hoursApart = [0, 1, 2, 3, 4, 5, 6];

/** Planned against actual place, and leaks by their clock hour against the nearest crease. Small numbers prove nothing. */
export function afterSurgery(people: readonly SitedPerson[]): AfterSurgery {
  const each = people.map(personAfter);
  const planned = each.flatMap((person) => person.planned ?? []);
  const apartMm = planned.map((mark) => mark.apartMm).sort((a, b) => a - b);
  const counts = hoursApart.map((hours) =>
    each.reduce((sum, one) => sum + (one.leaksByHoursApart[hours] ?? 0), 0),
  );
  const leaks = counts.reduce((sum, count) => sum + count, 0);
  return {
    people: each,
    apart: {
      people: planned.length,
      medianMm: medianOf(apartMm),
      largestMm: apartMm.at(-1) ?? null,
      atFirstRank: planned.filter(({ rank }) => rank === 1).length,
    },
    leaks: hoursApart.map((hours) => ({
      hoursApart: hours,
      leaks: counts[hours]!,
      share: leaks > 0 ? counts[hours]! / leaks : null,
      evenShare: (hours === 0 || hours === 6 ? 1 : 2) / 12,
    })),
    notes: [countedNote(planned.length, leaks)],
  };
}

function personAfter({ id, landmarks, marks, stomaAt, leakHours }: SitedPerson): PersonAfterSurgery {
  const crease = stomaAt && nearestCrease(landmarks, stomaAt);
  const leaksByHoursApart = crease
    ? hoursApart.map((hours) => leakHours.filter((leak) => apartOnClock(leak, crease.hour) === hours).length)
    : [];
  return { id, planned: stomaAt && nearestMark(marks, stomaAt), crease, leaksByHoursApart };
}

function nearestMark(marks: SitedPerson["marks"], stomaAt: Point): PersonAfterSurgery["planned"] {
  const [nearest] = marks
    .map(({ rank, at }) => ({
      rank,
      apartMm: distanceMm(at, stomaAt),
      leftMm: stomaAt[0] - at[0],
      headMm: stomaAt[1] - at[1],
    }))
    .sort((a, b) => a.apartMm - b.apartMm);
  return nearest ?? null;
}

function nearestCrease(landmarks: readonly Landmark[], from: Point): PersonAfterSurgery["crease"] {
  const feet = landmarks
    .filter(({ kind }) => kind === "crease" || kind === "fold")
    .map(({ shape }) => nearestOn("area" in shape ? [...shape.area, shape.area[0]!] : pointsOf(shape), from));
  const [nearest] = feet
    .map((foot) => ({ awayMm: distanceMm(foot, from), hour: clockHourAt(foot, from) }))
    .sort((a, b) => a.awayMm - b.awayMm);
  return nearest ?? null;
}

/** The place of a line that is nearest to a point. */
function nearestOn(line: readonly Point[], [x, y]: Point): Point {
  const feet = line.map((to, at): Point => {
    const [ax, ay] = line[Math.max(0, at - 1)]!;
    const [dx, dy] = [to[0] - ax, to[1] - ay];
    const squared = dx * dx + dy * dy;
    const along = squared === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / squared;
    const share = Math.max(0, Math.min(1, along));
    return [ax + share * dx, ay + share * dy];
  });
  return feet.reduce((near, foot) => (distanceMm(foot, [x, y]) < distanceMm(near, [x, y]) ? foot : near));
}

/** Whole hours from one to the other the shorter way round, 0 to 6. */
function apartOnClock(a: number, b: number): number {
  const turned = Math.abs(a - b) % 12;
  return Math.round(Math.min(turned, 12 - turned));
}

function countedNote(people: number, leaks: number): Note {
  const text = `From ${people} ${people === 1 ? "person" : "people"} and ${leaks} clock hours of leaks of this clinic; small numbers prove nothing.`;
  return note("counted", text, { people, leaks });
}

function medianOf(sorted: readonly number[]): number | null {
  if (sorted.length === 0) return null;
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
