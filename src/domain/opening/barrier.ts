import { type Note, note } from "../note.ts";
import {
  boundaryOf,
  clockHourAt,
  distanceMm,
  type Outline,
  onClock,
  type Point,
  smallestCircle,
} from "../outline/index.ts";
import { type Protocol, protocolDefinition } from "../protocol/index.ts";
import { shown } from "./cautions.ts";

/** The outer edge of the barrier; width is side to side, height head to foot. */
export type Barrier =
  | { shape: "round"; diameterMm: number }
  | { shape: "rectangle"; widthMm: number; heightMm: number };

/** What is known of the barrier to be cut; lengths in mm, rings and holes about its centre. */
export interface BarrierLimits {
  barrier?: Barrier;
  maxOpeningMm?: number;
  starterHoleMm?: number;
  edgeMarginMm?: number;
  barrierCentreMm?: Point;
}

export interface BarrierFit {
  /** Null where nothing about the barrier is known. */
  centreMm: Point | null;
  /** Least barrier left outside the opening; null where its edge is not known. */
  marginMm: number | null;
  /** Why the opening cannot be cut from this barrier; empty where it can. */
  reasons: Note[];
}

/** A length and the clock hour, seen from the barrier's centre, at which it was found. */
interface AtClock {
  mm: number;
  clockHour: number;
}

/**
 * Whether an opening can be cut from a barrier. Unless its place is given, the barrier lies with its centre
 * on that of the smallest circle round the opening.
 */
export function barrierFit(limits: BarrierLimits, opening: Outline, protocol: Protocol): BarrierFit {
  const { barrier, maxOpeningMm, starterHoleMm } = limits;
  if (!barrier && maxOpeningMm === undefined && starterHoleMm === undefined) return nothingKnown;
  const centreMm = limits.barrierCentreMm ?? smallestCircle(opening).centreMm;
  const margin = barrier ? smallestMargin(opening, barrier, centreMm) : null;
  const reasons = [
    margin && marginReason(margin, limits.edgeMarginMm, protocol),
    maxOpeningMm === undefined ? null : ringReason(farthestReach(opening, centreMm), maxOpeningMm),
    starterHoleMm === undefined ? null : starterReason(nearestReach(opening, centreMm), starterHoleMm),
  ];
  return { centreMm, marginMm: margin?.mm ?? null, reasons: reasons.filter((reason) => reason !== null) };
}

const nothingKnown: BarrierFit = { centreMm: null, marginMm: null, reasons: [] };

function marginReason(margin: AtClock, wantedMm: number | undefined, protocol: Protocol): Note | null {
  const limitMm = wantedMm ?? protocol.barrierMarginMm;
  if (margin.mm >= limitMm - roundingMm) return null;
  const source =
    wantedMm === undefined ? protocolDefinition("barrierMarginMm").source : "given with the barrier";
  return note(
    "barrierMarginTooSmall",
    `Only ${shown(margin.mm)} mm of barrier is left outside the opening at ${margin.clockHour} o'clock; ` +
      `${shown(limitMm)} mm is wanted.`,
    { marginMm: margin.mm, clockHour: margin.clockHour, limitMm, source },
  );
}

function ringReason(reach: AtClock, maxOpeningMm: number): Note | null {
  if (2 * reach.mm <= maxOpeningMm + roundingMm) return null;
  return note(
    "largerThanMaxOpening",
    `The opening needs a ring ${shown(2 * reach.mm)} mm across; the barrier may be cut to ${shown(maxOpeningMm)} mm.`,
    { acrossMm: 2 * reach.mm, clockHour: reach.clockHour, limitMm: maxOpeningMm },
  );
}

function starterReason(reach: AtClock, starterHoleMm: number): Note | null {
  if (2 * reach.mm >= starterHoleMm - roundingMm) return null;
  return note(
    "smallerThanStarterHole",
    `The barrier's own hole of ${shown(starterHoleMm)} mm would stand outside the opening at ` +
      `${reach.clockHour} o'clock.`,
    { acrossMm: 2 * reach.mm, clockHour: reach.clockHour, limitMm: starterHoleMm },
  );
}

/** Limits are kept to this, mm: the opening itself is no more exact. */
const roundingMm = 0.005;

function smallestMargin(opening: Outline, barrier: Barrier, centre: Point): AtClock {
  return leastAtClock(opening, centre, ([x, y]) =>
    barrier.shape === "round"
      ? barrier.diameterMm / 2 - Math.hypot(x - centre[0], y - centre[1])
      : Math.min(
          barrier.widthMm / 2 - Math.abs(x - centre[0]),
          barrier.heightMm / 2 - Math.abs(y - centre[1]),
        ),
  );
}

/** How far an opening reaches from the barrier's centre. */
function farthestReach(opening: Outline, centre: Point): AtClock {
  const least = leastAtClock(opening, centre, (point) => -distanceMm(centre, point));
  return { mm: -least.mm, clockHour: least.clockHour };
}

/** How near an opening's edge comes to the barrier's centre; negative where the centre lies outside it. */
function nearestReach(opening: Outline, [x, y]: Point): AtClock {
  const edge = boundaryOf(opening);
  const nearest = edge.nearestEdge(x, y);
  const [a, b] = [opening[nearest]!, opening[(nearest + 1) % opening.length]!];
  return {
    mm: -edge.signedGapMm(x, y),
    clockHour: wholeHour([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], [x, y]),
  };
}

function leastAtClock(opening: Outline, centre: Point, lengthMm: (point: Point) => number): AtClock {
  let least = Number.POSITIVE_INFINITY;
  let place = opening[0]!;
  for (const point of opening) {
    const mm = lengthMm(point);
    if (mm < least) {
      least = mm;
      place = point;
    }
  }
  return { mm: least, clockHour: wholeHour(place, centre) };
}

function wholeHour(point: Point, centre: Point): number {
  return onClock(Math.round(clockHourAt(point, centre)));
}
