import { useSyncExternalStore } from "react";

/** What must be done before the bench answers: sign in again, or confirm that it is still oneself. */
export type Question = "signIn" | "confirm";

interface Open {
  passed: Promise<boolean>;
  settle: (passed: boolean) => void;
}

const open = new Map<Question, Open>();
const listeners = new Set<() => void>();

/** Where requests wait while a dialog asks. All that wait for the same question share its answer. */
export const gate = {
  /** Opens the question unless it is open already. @returns whether the request may be asked again */
  passed(question: Question): Promise<boolean> {
    const asked = open.get(question) ?? begun();
    open.set(question, asked);
    tell();
    return asked.passed;
  },
  settle(question: Question, passed: boolean): void {
    open.get(question)?.settle(passed);
    open.delete(question);
    tell();
  },
};

function begun(): Open {
  let settle: Open["settle"] = () => {};
  const passed = new Promise<boolean>((resolve) => {
    settle = resolve;
  });
  return { passed, settle };
}

function tell(): void {
  for (const listener of listeners) listener();
}

/** Whether requests wait for this. */
export function useAsked(question: Question): boolean {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => open.has(question),
  );
}
