import { useEffect, useState } from "react";
import type { Protocol } from "../../../domain/protocol/index.ts";
import { type Healing, healingQuestion, type StomaStory } from "../../../record/story/index.ts";
import type { ForecastAnswer, ForecastQuestion } from "../fitting/figures/forecast.worker.ts";

/** The healing curve once it is worked out; null where the readings carry none. */
export interface HealingState {
  healing: Healing | null;
  ready: boolean;
  /** It could not be worked out in this browser. */
  failed: boolean;
}

const waiting: HealingState = { healing: null, ready: false, failed: false };

/** Works out the healing curve beside the page: it takes up to a few hundred milliseconds. */
export function useHealing(stoma: StomaStory, protocol: Protocol): HealingState {
  const [state, setState] = useState(waiting);
  useEffect(() => {
    const question = healingQuestion(stoma);
    if (!question) {
      setState({ healing: null, ready: true, failed: false });
      return;
    }
    const worker = new Worker(new URL("../fitting/figures/forecast.worker.ts", import.meta.url), {
      type: "module",
    });
    worker.onmessage = ({ data: { answers } }: MessageEvent<ForecastAnswer>) => {
      const [answer = null] = answers;
      const { clockStartOn, surgeryKnown } = question;
      const [longest, narrowest = null] = answer?.curves ?? [];
      const healing =
        answer && longest ? { ...answer, clockStartOn, surgeryKnown, longest, narrowest } : null;
      setState({ healing, ready: true, failed: false });
      worker.terminate();
    };
    worker.onerror = () => setState({ healing: null, ready: true, failed: true });
    worker.postMessage({ number: 1, questions: [question], protocol } satisfies ForecastQuestion);
    return () => worker.terminate();
  }, [stoma, protocol]);
  return state;
}
