import { lazy, Suspense } from "react";
import { type KnownSession, useAsked } from "../../shared/api/index.ts";
import { useNearEnd, useRenewal } from "./sessionEnd.ts";

const SignInAgain = lazy(() => import("./SignInAgain.tsx").then((file) => ({ default: file.SignInAgain })));
const ConfirmDialog = lazy(() =>
  import("./ConfirmDialog.tsx").then((file) => ({ default: file.ConfirmDialog })),
);
const IdleWarning = lazy(() => import("./IdleWarning.tsx").then((file) => ({ default: file.IdleWarning })));

/** What may come between somebody who is signed in and the page: the end of the session, or a confirmation. */
export function SessionWatch({ session }: { session: KnownSession }) {
  const signInAsked = useAsked("signIn");
  const confirmAsked = useAsked("confirm");
  const ended = session.lost || signInAsked;
  return (
    <Suspense>
      {confirmAsked && <ConfirmDialog session={session} />}
      {ended ? <SignInAgain session={session} /> : <EndWatch session={session} />}
    </Suspense>
  );
}

function EndWatch({ session }: { session: KnownSession }) {
  const end = useNearEnd(session);
  useRenewal();
  return end && <IdleWarning session={session} end={end} />;
}
