import { useEffect, useState } from "react";
import type { PlainDate } from "../../../../domain/calendar.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { RecordedShape } from "../../../../record/entry/index.ts";
import { healingQuestion, type StomaStory } from "../../../../record/story/index.ts";
import type { CurveAnswer, ForecastAnswer, ForecastQuestion } from "./forecast.worker.ts";

/** What the curve says of one opening, and how its days are counted. */
export interface Outlook extends CurveAnswer {
  /** Day 0. */
  clockStartOn: PlainDate;
  /** Where it is false, days count from the first entry: dates are shown, never a day of recovery. */
  surgeryKnown: boolean;
}

export interface Forecast {
  inUse: Outlook | null;
  proposed: Outlook | null;
  /** The plate has changed since: the figures shown are of a moment ago. */
  waiting: boolean;
}

/** Long enough that a drag or a burst of typing asks once. */
const restMs = 120;

/**
 * What the healing curve says of both openings, worked out beside the page. Only the last question counts; until it
 * is answered the answer before stays, marked as waiting.
 */
export function useForecast(
  stoma: StomaStory | null,
  inUse: RecordedShape | null,
  proposed: RecordedShape | null,
  protocol: Protocol,
): Forecast {
  const worker = useForecastWorker();
  const [shown, setShown] = useState<Omit<Forecast, "waiting">>({ inUse: null, proposed: null });
  const [waiting, setWaiting] = useState(true);
  useEffect(() => {
    if (!stoma || !worker) return;
    setWaiting(true);
    const questions = [inUse, proposed].map((opening) => opening && healingQuestion(stoma, opening));
    const number = next();
    const timer = setTimeout(() => {
      worker.postMessage({ number, questions, protocol } satisfies ForecastQuestion);
    }, restMs);
    worker.onmessage = ({ data }: MessageEvent<ForecastAnswer>) => {
      if (data.number !== number) return;
      const [first = null, second = null] = data.answers.map((answer, i) => {
        const question = questions[i];
        return answer && question ? { ...answer, ...countedFrom(question) } : null;
      });
      setShown({ inUse: first, proposed: second });
      setWaiting(false);
    };
    return () => clearTimeout(timer);
  }, [stoma, inUse, proposed, protocol, worker]);
  return { ...shown, waiting: waiting && stoma !== null };
}

function countedFrom({ clockStartOn, surgeryKnown }: { clockStartOn: PlainDate; surgeryKnown: boolean }) {
  return { clockStartOn, surgeryKnown };
}

let last = 0;
function next(): number {
  last += 1;
  return last;
}

function useForecastWorker(): Worker | null {
  const [worker, setWorker] = useState<Worker | null>(null);
  useEffect(() => {
    const own = new Worker(new URL("./forecast.worker.ts", import.meta.url), { type: "module" });
    setWorker(own);
    return () => own.terminate();
  }, []);
  return worker;
}
