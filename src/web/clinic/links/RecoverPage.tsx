import { useState } from "react";
import type { Session } from "../../../record/session.ts";
import { ask } from "../../shared/api/index.ts";
import { Button, ErrorNote, Form, Opening, WhosePassword } from "../../shared/ui/index.ts";
import { useAttempt } from "../entry/useAttempt.ts";
import "../entry/signIn.css";
import { LinkPage, SignedInNote } from "./LinkPage.tsx";
import { NewPasswordField, newPasswordWrong } from "./NewPasswordField.tsx";
import { useEnter } from "./useEnter.ts";

interface RecoverLink {
  clinicName: string;
  displayName: string;
  signInName: string;
  expiresMs: number;
}

/** A new password for somebody who cannot get in: every other way in ends. */
export function RecoverPage() {
  return (
    <LinkPage<RecoverLink>
      title="A new password"
      look="/recover/look"
      renewal={
        <>
          The lead of the service can make you another link. The lead’s own is made at the machine itself:{" "}
          <code>roundel account recover NAME</code>.
        </>
      }
    >
      {(link, token) => <Recover link={link} token={token} />}
    </LinkPage>
  );
}

function Recover({ link, token }: { link: RecoverLink; token: string }) {
  const [password, setPassword] = useState("");
  const [tried, setTried] = useState(false);
  const attempt = useAttempt();
  const enter = useEnter();
  const wrong = newPasswordWrong(password, [link.signInName, link.displayName, link.clinicName]);
  const send = () => {
    setTried(true);
    if (wrong) return;
    void attempt.run(async () =>
      enter(await ask<Session>("/recover", { method: "POST", body: { token, password } })),
    );
  };
  return (
    <div className="signin">
      <Opening
        title="A new password"
        lead={`For ${link.displayName} at ${link.clinicName}, who signs in as “${link.signInName}”.`}
      >
        <p className="small">
          Wherever this account is signed in now, it is signed out. A passkey is no longer asked for beside
          the password until you ask for it again.
        </p>
        <SignedInNote />
      </Opening>
      <Form label="New password" onSend={send}>
        <div className="signin-fields">
          <WhosePassword signInName={link.signInName} />
          <NewPasswordField
            label="New password"
            value={password}
            onChange={setPassword}
            error={tried ? wrong : undefined}
          />
        </div>
        <ErrorNote error={attempt.error} />
        <p className="formend">
          <Button first type="submit" busy={attempt.busy}>
            Set it and sign in
          </Button>
        </p>
      </Form>
    </div>
  );
}
