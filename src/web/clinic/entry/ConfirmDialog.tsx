import { useState } from "react";
import { ask, gate, type KnownSession, useLookAgain, useOwnAccount } from "../../shared/api/index.ts";
import { answerWithPasskey, passkeysHere, type UseOptions } from "../../shared/passkey/index.ts";
import { Button, Dialog, Form, PasswordField, WhosePassword } from "../../shared/ui/index.ts";
import { AttemptNote } from "./AttemptNote.tsx";
import { useAttempt } from "./useAttempt.ts";
import "./signIn.css";

/** Asks for the password or the passkey again; what was asked for is then done without a further press. */
export function ConfirmDialog({ session }: { session: KnownSession }) {
  const attempt = useAttempt();
  const lookAgain = useLookAgain();
  const [password, setPassword] = useState("");
  const [tried, setTried] = useState(false);
  const waiting = attempt.waitUntilMs !== null;
  const { takesPassword, takesPasskey } = useWays(session);

  const confirmed = async () => {
    gate.settle("confirm", true);
    await lookAgain();
  };
  const send = () => {
    setTried(true);
    if (!takesPassword || !password) return;
    void attempt.run(async () => {
      await ask("/confirm", { method: "POST", body: { password } });
      await confirmed();
    });
  };
  const withPasskey = () =>
    attempt.run(async () => {
      const options = await ask<UseOptions>("/confirm/passkey/options", { method: "POST" });
      const response = await answerWithPasskey(options);
      await ask("/confirm/passkey", { method: "POST", body: { response } });
      await confirmed();
    });
  // The demo's account has nothing to confirm with: a new session of its own is as good.
  const asDemo = () =>
    attempt.run(async () => {
      await ask("/sign-out", { method: "POST" });
      await lookAgain();
      gate.settle("confirm", true);
    });

  return (
    <Dialog title="Confirm that it is you" onClose={() => gate.settle("confirm", false)}>
      <p>
        Not everything may be done by whoever finds this page open. Show that you are still{" "}
        <b>{session.account?.displayName}</b>; what you asked for is then done at once.
      </p>
      <Form onSend={send}>
        <WhosePassword signInName={session.account?.signInName ?? ""} />
        {takesPassword && (
          <PasswordField
            label="Password"
            kind="current"
            value={password}
            onChange={setPassword}
            error={tried && !password ? "Write your password." : undefined}
          />
        )}
        <AttemptNote attempt={attempt} />
        <p className="formend">
          {takesPassword && (
            <Button
              first
              type="submit"
              busy={attempt.busy && "Confirming…"}
              aria-disabled={waiting || undefined}
            >
              Confirm
            </Button>
          )}
          {takesPasskey && (
            <Button
              first={!takesPassword}
              onClick={withPasskey}
              aria-disabled={attempt.busy || waiting || undefined}
            >
              Use a passkey
            </Button>
          )}
          {session.demo && (
            <Button first onClick={asDemo} aria-disabled={attempt.busy || undefined}>
              Go on: this is a demo
            </Button>
          )}
          <Button onClick={() => gate.settle("confirm", false)}>Not now</Button>
        </p>
      </Form>
    </Dialog>
  );
}

/** How this account may confirm: where it asks for both when it signs in, the password alone is not enough. */
function useWays({ passkeysPossible, demo }: KnownSession): {
  takesPassword: boolean;
  takesPasskey: boolean;
} {
  const { data: own } = useOwnAccount();
  const possible = passkeysPossible && passkeysHere();
  return {
    takesPassword: own ? own.account.hasPassword && !own.account.secondFactor : !demo,
    takesPasskey: own ? possible && own.passkeys.some(({ here }) => here) : possible,
  };
}
