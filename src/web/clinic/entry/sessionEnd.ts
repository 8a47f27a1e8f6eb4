import { useEffect, useState } from "react";
import { type KnownSession, reach, useLookAgain, useStaySignedIn } from "../../shared/api/index.ts";

/** The warning comes so long before the end. @source WCAG 2.2, 2.2.1 Timing Adjustable: at least 20 seconds */
export const warnBeforeMs = 120_000;
/** Whoever works on without asking the bench for anything, such as on a long note, renews the session this often. */
const renewAfterMs = 240_000;

export interface SessionEnd {
  /** By this machine's clock. */
  atMs: number;
  /** Using the page puts it off; else a new sign-in is due whatever is done. */
  renewable: boolean;
}

/** When the session ends if nothing is done. */
export function endOf({ answeredMs, endsInMs }: Pick<KnownSession, "answeredMs" | "endsInMs">): SessionEnd {
  if (!endsInMs) return { atMs: Number.POSITIVE_INFINITY, renewable: true };
  const { idle, absolute } = endsInMs;
  return { atMs: answeredMs + Math.min(idle, absolute), renewable: idle < absolute };
}

/** The end, once it is near: asked of the bench anew first, for another tab may have put it off. */
export function useNearEnd(session: KnownSession): SessionEnd | null {
  const look = useLookAgain();
  const end = endOf(session);
  const [nowMs, setNowMs] = useState(() => Date.now());
  const near = nowMs >= end.atMs - warnBeforeMs;
  useEffect(() => {
    const nextMs = near ? end.atMs : end.atMs - warnBeforeMs;
    const looked = () => look().then(() => setNowMs(Date.now()));
    return Number.isFinite(nextMs) ? at(nextMs, looked) : undefined;
  }, [end.atMs, near, look]);
  return near ? end : null;
}

/** Calls at a moment, also where the machine slept through it. @returns how to call it off */
function at(momentMs: number, call: () => void): () => void {
  const timer = setInterval(() => {
    if (Date.now() < momentMs) return;
    clearInterval(timer);
    call();
  }, 1000);
  return () => clearInterval(timer);
}

/** Keys and presses count as use, whether or not they ask the bench for anything. */
export function useRenewal(): void {
  const { mutate } = useStaySignedIn();
  useEffect(() => {
    const onUse = () => {
      const { lastAttendedMs } = reach.now();
      if (lastAttendedMs !== null && Date.now() - lastAttendedMs < renewAfterMs) return;
      mutate();
    };
    const kinds = ["keydown", "pointerdown"] as const;
    for (const kind of kinds) addEventListener(kind, onUse, { capture: true, passive: true });
    return () => {
      for (const kind of kinds) removeEventListener(kind, onUse, { capture: true });
    };
  }, [mutate]);
}
