import { useEffect, useState } from "react";
import { ErrorNote } from "../../shared/ui/index.ts";
import { duration } from "../../shared/words/index.ts";
import type { Attempt } from "./useAttempt.ts";

/** Why the last try failed, or how long the next one must wait. */
export function AttemptNote({ attempt }: { attempt: Attempt }) {
  const { error, waitUntilMs, waited } = attempt;
  if (waitUntilMs === null) return <ErrorNote error={error} />;
  return <WaitNote untilMs={waitUntilMs} onOver={waited} />;
}

/** Counts down in words. The beginning is announced; the counting itself would only be noise. */
function WaitNote({ untilMs, onOver }: { untilMs: number; onOver: () => void }) {
  const seconds = useSecondsUntil(untilMs, onOver);
  const [whole] = useState(() => duration((untilMs - Date.now()) / 1000));
  return (
    <div className="errornote">
      <p className="hide" role="alert">
        Too many tries. Wait {whole} before the next one.
      </p>
      <p aria-hidden="true">
        Too many tries. Wait <b>{duration(seconds)}</b> before the next one.
      </p>
    </div>
  );
}

function useSecondsUntil(untilMs: number, onOver: () => void): number {
  const [seconds, setSeconds] = useState(() => (untilMs - Date.now()) / 1000);
  useEffect(() => {
    const timer = setInterval(() => {
      const left = (untilMs - Date.now()) / 1000;
      setSeconds(left);
      if (left <= 0) onOver();
    }, 250);
    return () => clearInterval(timer);
  }, [untilMs, onOver]);
  return seconds;
}
