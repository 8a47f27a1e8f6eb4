import { useEffect, useState } from "react";
import { type KnownSession, useStaySignedIn } from "../../shared/api/index.ts";
import { Button, Dialog, ErrorNote } from "../../shared/ui/index.ts";
import { duration } from "../../shared/words/index.ts";
import { SignOutButton } from "./SignOutButton.tsx";
import type { SessionEnd } from "./sessionEnd.ts";
import "./signIn.css";

/** Two minutes before the end: one press stays signed in. */
export function IdleWarning({ session, end }: { session: KnownSession; end: SessionEnd }) {
  const stay = useStaySignedIn();
  const [whole] = useState(() => duration((end.atMs - Date.now()) / 1000));
  const name = session.account?.displayName;
  if (!end.renewable) return <EndsAnyway name={name} atMs={end.atMs} />;
  return (
    <Dialog title="Are you still there?" urgent>
      <p className="hide">
        {name} is signed out in {whole}. Nothing typed is lost.
      </p>
      <p aria-hidden="true">
        {name} is signed out in <Countdown untilMs={end.atMs} />. Nothing typed is lost.
      </p>
      <ErrorNote error={stay.error} />
      <p className="formend">
        <Button first busy={stay.isPending && "One moment…"} onClick={() => stay.mutate()}>
          Stay signed in
        </Button>
        <SignOutButton className="button">Sign out now</SignOutButton>
      </p>
    </Dialog>
  );
}

/** Nothing puts this end off: it is said in time, and stands in nobody's way. */
function EndsAnyway({ name, atMs }: { name: string | undefined; atMs: number }) {
  return (
    <p className="signin-ends" role="status">
      {name} has been signed in for as long as a session may last. It ends in <Countdown untilMs={atMs} />,
      and what is typed waits for the next sign-in.
    </p>
  );
}

function Countdown({ untilMs }: { untilMs: number }) {
  const [nowMs, setNowMs] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), 500);
    return () => clearInterval(timer);
  }, []);
  return <b role="timer">{duration((untilMs - nowMs) / 1000)}</b>;
}
