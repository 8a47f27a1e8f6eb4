import { type Note, note } from "../note.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { lifetimesOf, type Wear, wearPosterior, weibullLives } from "../wear/index.ts";
import { completionDays } from "./lasting.ts";
import { lawsOf, mixedCounts, type WeightedLaw } from "./laws.ts";
import { type Lot, usable } from "./lots.ts";
import { countMean, countQuantile } from "./renewal.ts";

export interface SupplyItem {
  id: string;
  /** Pieces used at each change; a part of one where one lasts several changes. */
  perChange: number;
  boxSize: number;
  onHand: number;
  /** Pieces that a payer usually covers in a month of 30 days. */
  allowancePerMonth?: number;
  /** Whole days from now until what is on hand expires; with several dates use `lots`. */
  expires?: number;
  /** What is on hand by expiry, adding up to `onHand`; used first expired first. */
  lots?: readonly Lot[];
}

export interface SuppliesInput {
  items: readonly SupplyItem[];
  /** The fitted law as it stands, or the person's wears, whose uncertainty then counts too. */
  wear: { shape: number; scale: number } | { wears: readonly Wear[] };
  /** Left out: changed only when it fails. */
  plannedChangeDays?: number;
  /** Age of the wear that is on. */
  currentWearDays?: number;
  /** Days from now that an order made now has to last. */
  horizonDays: number;
  leadTimeDays: number;
  /** Chance that what is ordered lasts; per order. */
  serviceLevel: number;
}

export interface SupplyForecast {
  id: string;
  /** Completed wears within the horizon. */
  changes: { mean: number; p50: number; p90: number; p95: number };
  /** Pieces that last the horizon with the service level. */
  need: number;
  orderBoxes: number;
  /** Last whole day, from now, on which an order still arrives in time with the service level; 0 = today or too late. */
  reorderOnDay: number | null;
  /** Day, from now, on which a change finds nothing left: with these chances by then; null beyond the day looked to. */
  stockOutDay: { p10: number | null; p50: number | null; p90: number | null };
  /** Pieces of the need over the allowance for the horizon; null without an allowance. */
  overAllowance: number | null;
  notes: Note[];
}

export interface Supplies {
  items: SupplyForecast[];
  notes: Note[];
}

/** A month of the payers' tables. */
const monthDays = 30;
/** Stock-out is looked for no further ahead than this. */
const farthestDays = 400;
/** Days as close as this are the same. */
const sameDay = 1e-6;

/**
 * What a person needs of each item until a horizon, when to order and when it would run out: the number of changes is
 * the renewal process of the wear, ended at the planned change.
 *
 * @source renewal counts and reorder by cycle service level: test/reference/inventory.test.ts
 */
export function supplies(input: SuppliesInput, protocol: Protocol = defaultProtocol): Supplies {
  const laws = lawsFrom(input, protocol);
  const { horizonDays, currentWearDays = 0, serviceLevel } = input;
  const pmf = mixedCounts(laws, horizonDays, currentWearDays);
  const changes = {
    mean: countMean(pmf),
    p50: countQuantile(pmf, 0.5),
    p90: countQuantile(pmf, 0.9),
    p95: countQuantile(pmf, 0.95),
  };
  const atService = countQuantile(pmf, serviceLevel);
  return {
    items: input.items.map((item) => forecastItem(item, { input, laws, changes, atService })),
    notes: "wears" in input.wear ? [fromWears(input.wear.wears.length)] : [asGiven()],
  };
}

function lawsFrom({ wear, plannedChangeDays }: SuppliesInput, protocol: Protocol): WeightedLaw[] {
  const plannedDays = plannedChangeDays ?? null;
  if ("shape" in wear) {
    return [{ law: { shape: wear.shape, scaleDays: wear.scale, plannedDays }, weight: 1 }];
  }
  const prior = {
    logScale: { mean: Math.log(protocol.priorScaleDays), sd: protocol.priorScaleLogSd },
    logShape: { mean: Math.log(protocol.priorShape), sd: protocol.priorShapeLogSd },
  };
  // Every unplanned change takes a barrier, whatever the reason.
  const lifetimes = lifetimesOf(wear.wears, ["leak", "underBarrier", "sealTrouble", "other"]);
  return lawsOf(wearPosterior(weibullLives(lifetimes), prior), plannedDays);
}

interface Outlook {
  input: SuppliesInput;
  laws: readonly WeightedLaw[];
  changes: SupplyForecast["changes"];
  atService: number;
}

function forecastItem(item: SupplyItem, { input, laws, changes, atService }: Outlook): SupplyForecast {
  const { horizonDays, leadTimeDays, currentWearDays = 0, serviceLevel } = input;
  const days = { currentWearDays, horizonDays: Math.max(farthestDays, horizonDays + leadTimeDays) };
  const stock = usable(item, laws, currentWearDays);
  const wearsCovered = Math.floor(stock.pieces / item.perChange + 1e-9);
  const [late = null, p10 = null, p50 = null, p90 = null] = completionDays(
    laws,
    wearsCovered + 1,
    [1 - serviceLevel, 0.1, 0.5, 0.9],
    days,
  );
  const need = Math.ceil(item.perChange * atService - 1e-9);
  const missing = Math.max(0, need - Math.floor(stock.pieces + 1e-9));
  const allowance =
    item.allowancePerMonth === undefined ? null : (item.allowancePerMonth * horizonDays) / monthDays;
  const reorderOnDay = late === null ? null : Math.max(0, Math.floor(late - leadTimeDays + sameDay));
  return {
    id: item.id,
    changes,
    need,
    orderBoxes: Math.ceil(missing / item.boxSize),
    reorderOnDay,
    stockOutDay: { p10, p50, p90 },
    overAllowance: allowance === null ? null : Math.max(0, need - allowance),
    notes: [
      ...stock.notes,
      ...(late !== null && late < leadTimeDays ? [mayRunOut(late, leadTimeDays)] : []),
      ...(allowance !== null && need > allowance ? [overAllowance(need, allowance)] : []),
    ],
  };
}

function mayRunOut(days: number, leadTimeDays: number): Note {
  return note(
    "mayRunOutBeforeDelivery",
    `It may run out in ${days.toFixed(0)} days, before an order of today arrives (${leadTimeDays} days): ask for a quicker way.`,
    { days, leadTimeDays },
  );
}

function overAllowance(need: number, allowance: number): Note {
  return note(
    "overAllowance",
    `${need} are needed where ${Math.floor(allowance)} are usually covered: the reason has to stand in the record.`,
    { need, allowance },
  );
}

function fromWears(wears: number): Note {
  return note(
    "fromWears",
    `From ${wears} wears and a weak prior; the spread includes how little is known of the wear.`,
    { wears },
  );
}

function asGiven(): Note {
  return note("wearAsGiven", "The wear is taken as given: its own uncertainty is not in the spread.");
}
