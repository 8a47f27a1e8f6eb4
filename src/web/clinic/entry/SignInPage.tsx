import type { KnownSession } from "../../shared/api/index.ts";
import { useArrive, useLookAgain } from "../../shared/api/index.ts";
import { Button, Opening } from "../../shared/ui/index.ts";
import { SignInForm } from "./SignInForm.tsx";
import "./signIn.css";

/** Stands at whatever address was asked for; once somebody has signed in, that page is shown. */
export function SignInPage({ session }: { session: KnownSession }) {
  const arrive = useArrive();
  return (
    <div className="signin">
      <Opening title="Sign in" lead="The record is open to those who have an account here." />
      <SignInForm passkeysPossible={session.passkeysPossible} onSignedIn={arrive} />
      {session.demo && <DemoAgain />}
      <p className="small signin-help">
        Forgotten your password, or no account yet? The lead of the service makes you a link. The lead’s own
        is made at the machine itself: <code>roundel account recover NAME</code>.
      </p>
    </div>
  );
}

/** A demo signs in by itself wherever it is asked on the machine that runs it. */
function DemoAgain() {
  const look = useLookAgain();
  return (
    <p className="signin-demo">
      This is a demo with invented people. <Button onClick={() => look()}>Go on without signing in</Button>
    </p>
  );
}
