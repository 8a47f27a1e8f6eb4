import type { BodyOf, ChangeReason } from "../entry/index.ts";
import type { Chance } from "./chance.ts";
import type { Moment } from "./pen.ts";
import type { Seal, StomaScenario, WornSystem } from "./scenario.ts";

/** A change as the person writes it down. Times are days from today's midnight, so -1.5 is the noon before yesterday. */
export interface LoggedChange {
  atDays: number;
  body: Omit<BodyOf<"changed">, "lastSoundAt">;
  lastSoundDays?: number;
}

/** Nothing is logged in the last hour before today begins. */
const lastHourDays = 1 / 24;
const morning = { from: 6.8, to: 9.5 };
const night = { from: 23 / 24, to: 5.5 / 24 };
/** Plans under a day are kept by the clock, longer ones by the morning. */
const byTheClockDays = 1;
const otherShare = 0.02;

/**
 * Eight weeks and more of changes: a renewal process in which each barrier stays until its seal gives way or its
 * planned morning comes, whichever is first.
 */
export function changeLog(stoma: StomaScenario, chance: Chance): LoggedChange[] {
  const log: LoggedChange[] = [];
  const endDays = -(stoma.until ?? 0) - lastHourDays;
  let next: LoggedChange = { atDays: startOf(stoma.systems[0]), body: { what: "barrier", why: "planned" } };
  while (next.atDays <= endDays) {
    log.push(next);
    const worn = wornFrom(stoma.systems, next.atDays);
    const following = nextChange(next.atDays, worn, chance);
    const switched = stoma.systems
      .map(startOf)
      .find((start) => start > next.atDays && start <= following.atDays);
    const after = switched === undefined ? following : plannedAt(switched);
    log.push(...pouchChanges(next.atDays, Math.min(after.atDays, endDays), worn, chance));
    next = after;
  }
  return log;
}

/** A system is put on in the clinic at ten in the morning. */
export function startOf({ since }: WornSystem): number {
  return -since + 10 / 24;
}

export function momentOf(days: number): Moment {
  const wholeDays = Math.floor(days);
  return { daysAgo: -wholeDays, hour: (days - wholeDays) * 24 };
}

function wornFrom(worn: StomaScenario["systems"], atDays: number): WornSystem {
  return worn.filter((one) => startOf(one) <= atDays).at(-1) ?? worn[0];
}

function nextChange(fromDays: number, { planDays, seal }: WornSystem, chance: Chance): LoggedChange {
  const plannedDays =
    planDays < byTheClockDays ? byClock(fromDays, planDays, chance) : byMorning(fromDays, planDays, chance);
  const failsDays = fromDays + chance.lifetime(seal.shape, seal.scaleDays);
  if (failsDays < plannedDays) return failure(fromDays, failsDays, seal, chance);
  if (planDays >= byTheClockDays && chance.share() < otherShare) {
    return {
      atDays: plannedDays,
      body: { what: "barrier", why: "other", note: "Changed early for an outing." },
    };
  }
  return plannedAt(plannedDays);
}

function plannedAt(atDays: number): LoggedChange {
  return { atDays, body: { what: "barrier", why: "planned" } };
}

/** A plan of three and a half days falls on the third or the fourth morning, each as often. */
function byMorning(fromDays: number, planDays: number, chance: Chance): number {
  const day = Math.floor(fromDays) + Math.floor(planDays + chance.share());
  return day + chance.between(morning.from, morning.to) / 24;
}

function byClock(fromDays: number, planDays: number, chance: Chance): number {
  return awake(fromDays + planDays * chance.between(0.8, 1.2), chance);
}

/** A seal that gives way in the night is found in the morning; it was last seen sound at bedtime. */
function failure(fromDays: number, failsDays: number, seal: Seal, chance: Chance): LoggedChange {
  const foundDays = awake(failsDays, chance);
  const body = { what: "barrier" as const, ...failureBody(seal, chance) };
  const bedtimeDays = Math.floor(foundDays) - 1 + night.from;
  if (foundDays === failsDays || bedtimeDays <= fromDays) return { atDays: foundDays, body };
  return { atDays: foundDays, body, lastSoundDays: bedtimeDays };
}

function failureBody({ weakHours }: Seal, chance: Chance): { why: ChangeReason; leakHours?: number[] } {
  const draw = chance.share();
  if (draw > 0.8) return { why: "itchOrLifting" };
  const why = draw < 0.45 ? "leakPastEdge" : "leakUnderBarrier";
  if (weakHours)
    return { why, leakHours: [...new Set([chance.oneOf(weakHours), chance.oneOf(weakHours)])].sort() };
  return chance.share() < 0.5 ? { why } : { why, leakHours: [chance.oneOf([4, 5, 6, 7, 8])] };
}

/** The time itself, or the morning after where it falls into the night. */
function awake(days: number, chance: Chance): number {
  const ofDay = days - Math.floor(days);
  if (ofDay > night.to && ofDay < night.from) return days;
  const morningOf = ofDay >= night.from ? Math.floor(days) + 1 : Math.floor(days);
  return morningOf + chance.between(6, 7) / 24;
}

function pouchChanges(
  fromDays: number,
  toDays: number,
  { pouchesADay }: WornSystem,
  chance: Chance,
): LoggedChange[] {
  if (pouchesADay === undefined) return [];
  const changes: LoggedChange[] = [];
  const step = () => chance.between(0.7, 1.3) / pouchesADay;
  for (let at = awake(fromDays + step(), chance); at < toDays - 0.2; at = awake(at + step(), chance)) {
    changes.push({ atDays: at, body: { what: "pouchOnly", why: "planned" } });
  }
  return changes;
}
