import { type RawBuilder, sql } from "kysely";
import type { CaseloadLimits } from "../store.ts";

type Condition = RawBuilder<boolean>;

/**
 * The verdicts of the domain as conditions on rows, for searching and counting where nobody reads the rows. What a
 * line says is still the domain's own word; a property test compares the two.
 */

/** An active stoma of the clinic. */
export function active(clinicId: string): Condition {
  return sql`stoma_row.clinic_id = ${clinicId} and stoma_row.standing = 'active'`;
}

export function fitEnded({ today }: CaseloadLimits): Condition {
  return sql`(fits_until_on is not null and fits_until_on <= ${today})`;
}

export function tooSmall(): Condition {
  return sql`(narrowest_gap_mm is not null and narrowest_gap_mm < 0)`;
}

export function tooLarge({ maxGapMm }: CaseloadLimits): Condition {
  return sql`(widest_gap_mm is not null and widest_gap_mm > ${maxGapMm})`;
}

/** A reason of the more urgent level. */
export function sameDay(limits: CaseloadLimits): Condition {
  return sql`(${fitEnded(limits)} or ${tooSmall()} or ${tooLarge(limits)})`;
}

export function measureDue({ newStomaDays, newMeasuredBy, settledMeasuredBy }: CaseloadLimits): Condition {
  return sql`(measure_from <= case when measured_at_day <= ${newStomaDays}
    then ${newMeasuredBy} else ${settledMeasuredBy} end)`;
}

/** A settled stoma that is due: a range of the index by measuring. */
export function settledDue({ newStomaDays, settledMeasuredBy }: CaseloadLimits): Condition {
  return sql`measure_from <= ${settledMeasuredBy} and measured_at_day + 0.0 > ${newStomaDays}`;
}

/** A new stoma that is due. New ones are few: their index is the one to take, and the sum keeps engines to it. */
export function newDue({ newStomaDays, newMeasuredBy }: CaseloadLimits): Condition {
  return sql`measured_at_day <= ${newStomaDays} and measure_from || '' <= ${newMeasuredBy}`;
}

/** Unplanned ends of wears that are counted: how many since then give a reason, and which of those in `wear` count. */
export interface Ends {
  count: number;
  sinceMs: number;
  counts: Condition;
}

export function unplannedEnds({ unplanned }: CaseloadLimits): Ends {
  return { ...unplanned, counts: sql`1 = 1` };
}

/** In days, as the domain compares them. */
export function shortEnds({ short, shortBelowDays: below }: CaseloadLimits): Ends {
  const { shareOfPlan, atMost, closed, other } = below;
  return {
    ...short,
    counts: sql`wear.hours / 24.0 < ${atMost} and wear.hours / 24.0 < case
      when wear.planned_interval_days is not null then ${shareOfPlan} * wear.planned_interval_days
      when wear.closure = 'closed' then ${closed} else ${other} end`,
  };
}
