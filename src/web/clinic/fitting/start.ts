import type { Reading, StomaStory } from "../../../record/story/index.ts";
import { whenOf } from "../kindForms/index.ts";
import { type FittingState, shapeToCorrect, startState } from "./state/index.ts";

/** A fresh reading, taken the way the last one was; or the one to correct, as it would have been typed. */
export function startOf(stoma: StomaStory, correcting: Reading | null, guideStepMm: number): FittingState {
  const fresh = freshState(stoma, guideStepMm);
  if (!correcting) return fresh;
  const { body, at } = correcting.source.entry;
  return {
    ...fresh,
    shape: shapeToCorrect(body, fresh.shape),
    details: {
      heightMm: body.heightMm === undefined ? "" : String(body.heightMm),
      posture: body.posture ?? "",
      note: body.note ?? "",
      reason: "",
      when: whenOf(at),
    },
  };
}

function freshState(stoma: StomaStory, guideStepMm: number): FittingState {
  const last = stoma.readings.at(-1);
  const state = startState(last?.method ?? "guide", lastStepMm(stoma) ?? guideStepMm);
  if (!last || last.longestMm !== last.narrowestMm) return state;
  return { ...state, shape: { ...state.shape, guide: { ...state.shape.guide, shape: "round" } } };
}

/** A clinic keeps to its guide: the step is the one used last. */
function lastStepMm({ readings }: StomaStory): number | undefined {
  return readings.findLast(({ stepMm }) => stepMm !== undefined)?.stepMm;
}
