import { useSyncExternalStore } from "react";

/** Whether the bench answered the last time it was asked, and when it last did. */
export interface Reach {
  reachable: boolean;
  /** ms since 1970; null before the first answer. */
  lastAnswerMs: number | null;
}

let now: Reach = { reachable: true, lastAnswerMs: null };
const listeners = new Set<() => void>();

function become(next: Reach): void {
  const changed = next.reachable !== now.reachable;
  now = next;
  if (changed) for (const listener of listeners) listener();
}

export const reach = {
  found: () => become({ reachable: true, lastAnswerMs: Date.now() }),
  lost: () => become({ ...now, reachable: false }),
};

if (typeof window !== "undefined") window.addEventListener("offline", reach.lost);

export function useReach(): Reach {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => now,
  );
}
