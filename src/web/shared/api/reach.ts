import { useSyncExternalStore } from "react";

/** Whether the bench answered the last time it was asked, and when it last did. */
export interface Reach {
  reachable: boolean;
  /** ms since 1970; null before the first answer. */
  lastAnswerMs: number | null;
  /** The last answer to something that somebody did, as against a clock: what keeps a session from going idle. */
  lastAttendedMs: number | null;
}

let now: Reach = { reachable: true, lastAnswerMs: null, lastAttendedMs: null };
const listeners = new Set<() => void>();

function become(next: Reach): void {
  const changed = next.reachable !== now.reachable;
  now = next;
  if (changed) for (const listener of listeners) listener();
}

export const reach = {
  found({ attended }: { attended: boolean }) {
    const lastAnswerMs = Date.now();
    become({
      reachable: true,
      lastAnswerMs,
      lastAttendedMs: attended ? lastAnswerMs : now.lastAttendedMs,
    });
  },
  lost: () => become({ ...now, reachable: false }),
  now: () => now,
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
