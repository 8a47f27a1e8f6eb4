import { useState } from "react";
import type { At, BodyOf } from "../../../../record/entry/index.ts";
import { ApiError, draftEntry, nowIn, useAppend } from "../../../shared/api/index.ts";
import { atOf, type WhenForm, whenOf } from "../../kindForms/index.ts";
import type { Fitting } from "../state/index.ts";

/** The reading that is corrected. */
export interface Correcting {
  id: string;
  at: At;
}

/** Saves the reading on the page. What was typed stays until the bench has it. */
export function useSaveReading({
  fitting,
  body,
  personId,
  stomaId,
  zone,
  correcting,
  first,
}: {
  /** What must be on the bench before the reading that names it. */
  first: () => Promise<void>;
  fitting: Fitting;
  body: BodyOf<"measured"> | null;
  personId: string;
  stomaId: string;
  zone: string;
  correcting: Correcting | null;
}) {
  const append = useAppend();
  const [error, setError] = useState<unknown>(null);
  const { details } = fitting.state;

  const at = (): At | null => {
    if (correcting && isSameTime(details.when, correcting.at)) return correcting.at;
    return details.when ? atOf(details.when, zone) : fitting.momentOf(() => nowIn(zone));
  };

  /** @returns the id of the entry. @throws what went wrong, which is shown too */
  const save = async (): Promise<string> => {
    setError(null);
    const when = at();
    if (!body || !when) throw new Error("the reading is not complete");
    const about = { id: fitting.id, personId, stomaId, at: when };
    const correction = correcting
      ? { corrects: { id: correcting.id, as: "replace" as const }, reason: details.reason.trim() }
      : {};
    try {
      await first();
      await append.mutateAsync([draftEntry("measured", body, { ...about, ...correction })]);
    } catch (problem) {
      if (!isSavedAlready(problem, body)) {
        setError(problem);
        throw problem;
      }
    }
    const { id } = fitting;
    fitting.forget();
    return id;
  };
  return {
    save,
    saving: append.isPending,
    error,
    whenWrong: details.when && at() === null ? "Give the date." : undefined,
  };
}

/** The form knows minutes, the record seconds: a time that was not touched stays what it was. */
function isSameTime(typed: WhenForm | null, at: At): boolean {
  const before = whenOf(at);
  return typed?.date === before.date && typed.time === before.time;
}

/** The first try reached the record and only its answer was lost. */
function isSavedAlready(problem: unknown, body: BodyOf<"measured">): boolean {
  if (!(problem instanceof ApiError) || problem.code !== "idReused" || !problem.existing) return false;
  return JSON.stringify(sorted(problem.existing.body)) === JSON.stringify(sorted(body));
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== "object") return value;
  const entries = Object.entries(value).filter(([, one]) => one !== undefined);
  return Object.fromEntries(
    entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, one]) => [key, sorted(one)]),
  );
}
