import { useState } from "react";
import { ask } from "../../shared/api/index.ts";
import { type MakeOptions, makePasskey } from "../../shared/passkey/index.ts";
import { Button, Dialog, ErrorNote, Field, Form } from "../../shared/ui/index.ts";
import { useAttempt } from "../entry/useAttempt.ts";
import { useRefreshAccount } from "./useRefreshAccount.ts";

/** A new passkey: named first, so that it can be told from the others when one is lost. */
export function AddPasskeyDialog({ onClose }: { onClose: () => void }) {
  const [name, setName] = useState("");
  const [tried, setTried] = useState(false);
  const attempt = useAttempt();
  const refresh = useRefreshAccount();
  const send = () => {
    setTried(true);
    if (!name.trim()) return;
    void attempt.run(async () => {
      const options = await ask<MakeOptions>("/account/passkeys/options", { method: "POST" });
      const response = await makePasskey(options);
      await ask("/account/passkeys", { method: "POST", body: { name: name.trim(), response } });
      await refresh();
      onClose();
    });
  };
  return (
    <Dialog title="Add a passkey" onClose={onClose}>
      <Form onSend={send}>
        <Field
          label="What to call it"
          maxLength={60}
          value={name}
          onChange={setName}
          error={tried && !name.trim() ? "Give it a name, such as where it is kept." : undefined}
          hint="Such as “my phone” or “key on my ring”. The browser then asks where to keep it."
        />
        <ErrorNote error={attempt.error} />
        <p className="formend">
          <Button first type="submit" busy={attempt.busy && "Waiting for the browser…"}>
            Add it
          </Button>
          <Button onClick={onClose}>Not now</Button>
        </p>
      </Form>
    </Dialog>
  );
}
