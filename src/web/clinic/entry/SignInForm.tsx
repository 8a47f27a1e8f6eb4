import { useState } from "react";
import type { Session } from "../../../record/session.ts";
import { ask } from "../../shared/api/index.ts";
import { answerWithPasskey, passkeysHere, type UseOptions } from "../../shared/passkey/index.ts";
import { Button, Field, Form, PasswordField } from "../../shared/ui/index.ts";
import { AttemptNote } from "./AttemptNote.tsx";
import { type Attempt, useAttempt } from "./useAttempt.ts";

interface SignInFormProps {
  /** Filled in where it is known who was here. */
  signInName?: string;
  passkeysPossible: boolean;
  onSignedIn: (session: Session) => Promise<void>;
}

/** Name and password, or a passkey; then the passkey as the second thing, where the account asks for both. */
export function SignInForm({ signInName = "", passkeysPossible, onSignedIn }: SignInFormProps) {
  const attempt = useAttempt();
  const [second, setSecond] = useState<UseOptions | null>(null);
  if (second) {
    return (
      <SecondStep attempt={attempt} options={second} onSignedIn={onSignedIn} onBack={() => setSecond(null)} />
    );
  }
  return (
    <FirstStep
      attempt={attempt}
      signInName={signInName}
      offersPasskey={passkeysPossible && passkeysHere()}
      onSignedIn={onSignedIn}
      onSecond={setSecond}
    />
  );
}

function FirstStep({
  attempt,
  signInName,
  offersPasskey,
  onSignedIn,
  onSecond,
}: {
  attempt: Attempt;
  signInName: string;
  offersPasskey: boolean;
  onSignedIn: SignInFormProps["onSignedIn"];
  onSecond: (options: UseOptions) => void;
}) {
  const [name, setName] = useState(signInName);
  const [password, setPassword] = useState("");
  const [tried, setTried] = useState(false);
  const waiting = attempt.waitUntilMs !== null;

  const send = () => {
    setTried(true);
    if (!name.trim() || !password) return;
    void attempt.run(async () => {
      const answer = await ask<Session | { passkeyNeeded: true; options: UseOptions }>("/sign-in", {
        method: "POST",
        body: { signInName: name.trim(), password },
      });
      if ("passkeyNeeded" in answer) onSecond(answer.options);
      else await onSignedIn(answer);
    });
  };
  const withPasskey = () =>
    attempt.run(async () => {
      // No name goes with it: whose passkeys there are is nobody's to ask.
      const options = await ask<UseOptions>("/sign-in/passkey/options", { method: "POST" });
      await onSignedIn(await sentPasskey(options));
    });

  return (
    <Form label="Sign in" onSend={send}>
      <div className="signin-fields">
        <Field
          label="Name"
          autoComplete="username"
          autoCapitalize="off"
          spellCheck={false}
          value={name}
          onChange={setName}
          error={tried && !name.trim() ? "Write the name you sign in with." : undefined}
        />
        <PasswordField
          label="Password"
          kind="current"
          value={password}
          onChange={setPassword}
          error={tried && !password ? "Write your password." : undefined}
        />
      </div>
      <AttemptNote attempt={attempt} />
      <p className="formend">
        <Button first type="submit" busy={attempt.busy && "Signing in…"} aria-disabled={waiting || undefined}>
          Sign in
        </Button>
        {offersPasskey && (
          <Button onClick={withPasskey} aria-disabled={attempt.busy || waiting || undefined}>
            Use a passkey
          </Button>
        )}
      </p>
    </Form>
  );
}

/** The password was right; the account asks for a passkey as well. */
function SecondStep({
  attempt,
  options,
  onSignedIn,
  onBack,
}: {
  attempt: Attempt;
  options: UseOptions;
  onSignedIn: SignInFormProps["onSignedIn"];
  onBack: () => void;
}) {
  const send = () => attempt.run(async () => onSignedIn(await sentPasskey(options)));
  return (
    <Form label="Second step" onSend={send}>
      <p role="status">The password is right. This account asks for a passkey as well.</p>
      <AttemptNote attempt={attempt} />
      <p className="formend">
        <Button first type="submit" busy={attempt.busy && "Waiting for the passkey…"} autoFocus>
          Use my passkey
        </Button>
        <Button onClick={onBack}>Back</Button>
      </p>
    </Form>
  );
}

async function sentPasskey(options: UseOptions): Promise<Session> {
  const response = await answerWithPasskey(options);
  return ask<Session>("/sign-in/passkey", { method: "POST", body: { response } });
}
