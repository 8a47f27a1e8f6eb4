import { useState } from "react";
import type { Role } from "../../../record/accounts/account.ts";
import type { Session } from "../../../record/session.ts";
import { ask, useSession } from "../../shared/api/index.ts";
import { type MakeOptions, makePasskey, passkeysHere } from "../../shared/passkey/index.ts";
import { Button, ErrorNote, Field, Form, Opening } from "../../shared/ui/index.ts";
import { roleMay, roleWords } from "../colleagues/roles.ts";
import { useAttempt } from "../entry/useAttempt.ts";
import "../entry/signIn.css";
import { LinkPage, SignedInNote } from "./LinkPage.tsx";
import { NewPasswordField, newPasswordWrong } from "./NewPasswordField.tsx";
import { signInNameWrong } from "./signInName.ts";
import { useEnter } from "./useEnter.ts";

interface JoinLink {
  clinicName: string;
  displayName: string;
  role: Role;
  signInName: string | null;
  expiresMs: number;
}

/** A colleague opens the link that the lead gave them, and chooses how they will sign in. */
export function JoinPage() {
  return (
    <LinkPage<JoinLink>
      title="Your account"
      look="/join/look"
      renewal="The lead of the service can make you another link."
    >
      {(link, token) => <Join link={link} token={token} />}
    </LinkPage>
  );
}

function Join({ link, token }: { link: JoinLink; token: string }) {
  const { data: session } = useSession();
  const [signInName, setSignInName] = useState(link.signInName ?? "");
  const [password, setPassword] = useState("");
  const [tried, setTried] = useState<"password" | "passkey" | null>(null);
  const attempt = useAttempt();
  const enter = useEnter();
  const name = signInName.trim();
  const nameWrong = signInNameWrong(signInName);
  const passwordWrong = newPasswordWrong(password, [name, link.displayName, link.clinicName]);

  const withPassword = () => {
    setTried("password");
    if (nameWrong || passwordWrong) return;
    void attempt.run(async () => {
      const body = { token, signInName: name, password };
      await enter(await ask<Session>("/join", { method: "POST", body }));
    });
  };
  const withPasskey = () => {
    setTried("passkey");
    if (nameWrong) return;
    void attempt.run(async () => {
      const about = { token, signInName: name };
      const options = await ask<MakeOptions>("/join/passkey/options", { method: "POST", body: about });
      const body = { ...about, name: "First passkey", response: await makePasskey(options) };
      await enter(await ask<Session>("/join/passkey", { method: "POST", body }));
    });
  };

  return (
    <div className="signin">
      <Opening
        title={`Welcome, ${link.displayName}`}
        lead={`This is your account at ${link.clinicName}, as ${roleWords[link.role].toLowerCase()}: you ${roleMay[link.role]}.`}
      >
        <SignedInNote />
      </Opening>
      <Form label="Your account" onSend={withPassword}>
        <div className="signin-fields">
          <Field
            label="Name to sign in with"
            autoComplete="username"
            autoCapitalize="off"
            spellCheck={false}
            value={signInName}
            onChange={setSignInName}
            error={tried ? nameWrong : undefined}
          />
          <NewPasswordField
            value={password}
            onChange={setPassword}
            error={tried === "password" ? passwordWrong : undefined}
          />
        </div>
        <ErrorNote error={attempt.error} />
        <p className="formend">
          <Button first type="submit" busy={attempt.busy}>
            Make the account
          </Button>
          {session?.passkeysPossible && passkeysHere() && (
            <Button onClick={withPasskey} aria-disabled={attempt.busy || undefined}>
              With a passkey instead
            </Button>
          )}
        </p>
      </Form>
    </div>
  );
}
