import { healingCurve, healingOfOval } from "../../../../domain/healing/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { HealingQuestion } from "../../../../record/story/index.ts";

/** What to ask of the curve: one question for each opening. */
export interface ForecastQuestion {
  number: number;
  questions: (HealingQuestion | null)[];
  protocol: Protocol;
}

/** What the curve says, whether the stoma is round (one curve) or not (the first is along the longest direction). */
export interface CurveAnswer
  extends Pick<
    ReturnType<typeof healingCurve>,
    "fitsUntilDay" | "measureAgainOnDay" | "rising" | "dates" | "notes"
  > {
  curves: ReturnType<typeof healingCurve>[];
}

export interface ForecastAnswer {
  number: number;
  answers: (CurveAnswer | null)[];
}

// The curve takes tens of milliseconds: off the page's own thread, so that a drag never waits for it.
self.onmessage = ({ data }: MessageEvent<ForecastQuestion>) => {
  const { number, questions, protocol } = data;
  const answers = questions.map((question) => question && answerTo(question, protocol));
  self.postMessage({ number, answers } satisfies ForecastAnswer);
};

function answerTo(question: HealingQuestion, protocol: Protocol): CurveAnswer {
  if (question.across === "one") {
    const curve = healingCurve(question.input, protocol);
    return { ...curve, curves: [curve] };
  }
  const oval = healingOfOval(question.input, protocol);
  return { ...oval, curves: [oval.length, oval.width] };
}
