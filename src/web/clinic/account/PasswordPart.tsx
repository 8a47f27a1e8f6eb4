import { useState } from "react";
import type { Account } from "../../../record/accounts/account.ts";
import { ask } from "../../shared/api/index.ts";
import { Button, Form, PasswordField, WhosePassword } from "../../shared/ui/index.ts";
import { AttemptNote } from "../entry/AttemptNote.tsx";
import { useAttempt } from "../entry/useAttempt.ts";
import { useBench } from "../frame/index.tsx";
import { NewPasswordField, newPasswordWrong } from "../links/NewPasswordField.tsx";
import { Part } from "./Part.tsx";
import { useRefreshAccount } from "./useRefreshAccount.ts";

/** Another password; a first one where a passkey was the only way in. */
export function PasswordPart({ account }: { account: Account }) {
  const { clinic } = useBench();
  const [current, setCurrent] = useState("");
  const [password, setPassword] = useState("");
  const [tried, setTried] = useState(false);
  const [saved, setSaved] = useState(false);
  const attempt = useAttempt();
  const refresh = useRefreshAccount();
  const currentWrong = account.hasPassword && !current ? "Write the password you have now." : undefined;
  const wrong = newPasswordWrong(password, [account.signInName, account.displayName, clinic.details.name]);

  const send = () => {
    setTried(true);
    setSaved(false);
    if (currentWrong || wrong) return;
    void attempt.run(async () => {
      const body = account.hasPassword ? { current, password } : { password };
      await ask("/account/password", { method: "PUT", body });
      setCurrent("");
      setPassword("");
      setTried(false);
      setSaved(true);
      await refresh();
    });
  };
  return (
    <Part
      title="Password"
      about={
        account.hasPassword
          ? "Another one signs you out everywhere but here."
          : "You sign in with a passkey and have no password."
      }
    >
      <Form label="Password" onSend={send}>
        <WhosePassword signInName={account.signInName} />
        <div className="account-fields">
          {account.hasPassword && (
            <PasswordField
              label="Password now"
              kind="current"
              value={current}
              onChange={setCurrent}
              error={tried ? currentWrong : undefined}
            />
          )}
          <NewPasswordField
            label="New password"
            value={password}
            onChange={setPassword}
            error={tried ? wrong : undefined}
          />
        </div>
        <AttemptNote attempt={attempt} />
        <p className="formend">
          <Button type="submit" busy={attempt.busy}>
            {account.hasPassword ? "Change the password" : "Set a password"}
          </Button>
          {saved && <span role="status">Changed. Everywhere else you are signed out.</span>}
        </p>
      </Form>
    </Part>
  );
}
