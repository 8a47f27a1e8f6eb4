import { useState } from "react";
import { ApiError } from "../../shared/api/index.ts";

/** Tries to prove who somebody is: one at a time, with the reason it failed and how long to wait for the next. */
export interface Attempt {
  busy: boolean;
  error: unknown;
  /** Until when the bench takes no further try, by this machine's clock. */
  waitUntilMs: number | null;
  run(work: () => Promise<void>): Promise<void>;
  /** The wait is over. */
  waited(): void;
}

export function useAttempt(): Attempt {
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const [waitUntilMs, setWaitUntilMs] = useState<number | null>(null);
  return {
    busy,
    error,
    waitUntilMs,
    waited: () => setWaitUntilMs(null),
    async run(work) {
      if (busy || waitUntilMs !== null) return;
      setBusy(true);
      setError(null);
      try {
        await work();
      } catch (cause) {
        const seconds = cause instanceof ApiError ? cause.waitSeconds : null;
        if (seconds === null) setError(cause);
        else setWaitUntilMs(Date.now() + seconds * 1000);
      }
      setBusy(false);
    },
  };
}
