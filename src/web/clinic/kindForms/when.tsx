import type { At } from "../../../record/entry/index.ts";
import { instantAt } from "../../../record/entry/index.ts";
import { Field } from "../../shared/ui/index.ts";
import { dayIn, timeOfDay } from "../../shared/words/index.ts";

/** When something happened, as typed: a date, and a time where it is known. */
export interface WhenForm {
  date: string;
  time: string;
}

/** Now, where the clinic is. */
export function whenNow(zone: string, nowMs = Date.now()): WhenForm {
  return { date: dayIn(zone, nowMs), time: timeOfDay(new Date(nowMs).toISOString(), zone) };
}

export function whenOf(at: At): WhenForm {
  if ("date" in at) return { date: at.date, time: "" };
  return { date: dayIn(at.zone, at.instant), time: timeOfDay(at.instant, at.zone) };
}

/** An instant where a time was typed, else the whole day; null while the date is missing. */
export function atOf({ date, time }: WhenForm, zone: string): At | null {
  if (!/^\d{4}-\d\d-\d\d$/.test(date)) return null;
  if (!time) return { date, precision: "day" };
  return { instant: instantOf({ date, time }, zone), zone };
}

/** The instant of a wall-clock date and time. */
export function instantOf({ date, time }: WhenForm, zone: string): string {
  const [hour = 0, minute = 0] = time.split(":").map(Number);
  return instantAt(date, hour, minute, zone);
}

export function WhenFields({
  value,
  onChange,
  error,
  dateOnly,
}: {
  value: WhenForm;
  onChange: (when: WhenForm) => void;
  error?: string;
  dateOnly?: boolean;
}) {
  return (
    <div className="fields pair">
      <Field
        label="Date"
        type="date"
        value={value.date}
        onChange={(date) => onChange({ ...value, date })}
        error={error}
      />
      {!dateOnly && (
        <Field
          label="Time"
          optional
          type="time"
          value={value.time}
          onChange={(time) => onChange({ ...value, time })}
        />
      )}
    </div>
  );
}
