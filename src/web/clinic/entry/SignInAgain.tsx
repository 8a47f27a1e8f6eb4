import { useNavigate } from "@tanstack/react-router";
import { useEffect } from "react";
import type { Session } from "../../../record/session.ts";
import { type KnownSession, useArrive } from "../../shared/api/index.ts";
import { useKeptCount } from "../../shared/draft/index.ts";
import { Dialog } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";
import { SignInForm } from "./SignInForm.tsx";
import "./signIn.css";

/** The session ended under somebody's hands: the page waits, unseen, until they have signed in again. */
export function SignInAgain({ session }: { session: KnownSession }) {
  const arrive = useArrive();
  const navigate = useNavigate();
  const kept = useKeptCount();
  useVeiledTitle();
  const { account } = session;
  const onSignedIn = async (next: Session) => {
    const another = next.account?.accountId !== account?.accountId;
    if (another) await navigate({ to: "/", replace: true });
    await arrive(next);
  };
  return (
    <Dialog title="Sign in again" veiled>
      <p>
        The session of {account?.displayName} has ended: after a while without use, or from another place.
        Sign in and the page goes on where it was.
      </p>
      {kept > 0 && (
        <p className="small">
          {counted(kept, "thing", "things")} typed here {kept === 1 ? "is" : "are"} kept for{" "}
          {account?.displayName}.
        </p>
      )}
      <SignInForm
        signInName={account?.signInName}
        passkeysPossible={session.passkeysPossible}
        onSignedIn={onSignedIn}
      />
      <p className="note">
        Somebody else? Sign in with your own name: you begin on a clean page and see nothing of this one.
      </p>
    </Dialog>
  );
}

/** The title of the tab may name a person: it is hidden with the page. */
function useVeiledTitle(): void {
  useEffect(() => {
    const { title } = document;
    document.title = "Sign in again · Roundel";
    return () => {
      document.title = title;
    };
  }, []);
}
