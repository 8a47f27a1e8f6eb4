import { useState } from "react";
import { type OwnAccount, useAccountAct } from "../../shared/api/index.ts";
import { passkeysHere } from "../../shared/passkey/index.ts";
import { Button, Check, ErrorNote } from "../../shared/ui/index.ts";
import { dayIn, nearDay } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { AddPasskeyDialog } from "./AddPasskeyDialog.tsx";
import { Part } from "./Part.tsx";

/** Passkeys: each by the name its owner gave it; and whether one is asked for beside the password. */
export function PasskeysPart({ own: { account, passkeys } }: { own: OwnAccount }) {
  const { passkeysPossible } = useBench();
  const [adding, setAdding] = useState(false);
  const remove = useAccountAct<string>((credentialId) => [
    `/account/passkeys/${encodeURIComponent(credentialId)}`,
    { method: "DELETE" },
  ]);
  const possible = passkeysPossible && passkeysHere();
  return (
    <Part
      title="Passkeys"
      about="A passkey stays on your phone, your computer or a key on your ring, and opens with a finger, a face or a PIN. It cannot be guessed or read over your shoulder."
    >
      {passkeys.length === 0 && <p>You have none.</p>}
      <ul className="account-list">
        {passkeys.map((passkey) => (
          <PasskeyLine
            key={passkey.credentialId}
            passkey={passkey}
            busy={remove.isPending && remove.variables === passkey.credentialId}
            onRemove={() => remove.mutate(passkey.credentialId)}
          />
        ))}
      </ul>
      <ErrorNote error={remove.error} />
      <p className="formend">
        {possible ? (
          <Button onClick={() => setAdding(true)}>Add a passkey</Button>
        ) : (
          <span className="small">
            Passkeys need a browser that has them, and an address with a name such as <code>localhost</code>.
            At a bare number they do not work.
          </span>
        )}
      </p>
      {account.hasPassword && passkeys.length > 0 && <SecondFactor required={account.secondFactor} />}
      {adding && <AddPasskeyDialog onClose={() => setAdding(false)} />}
    </Part>
  );
}

function PasskeyLine({
  passkey,
  busy,
  onRemove,
}: {
  passkey: OwnAccount["passkeys"][number];
  busy: boolean;
  onRemove: () => void;
}) {
  const { today, clinic } = useBench();
  const on = (ms: number) => nearDay(dayIn(clinic.details.timeZone, ms), today);
  const used = passkey.lastUsedMs === null ? "not used yet" : `last used ${on(passkey.lastUsedMs)}`;
  return (
    <li>
      <p>
        <b>{passkey.name}</b>
        <span className="note">
          Added {on(passkey.createdMs)}, {used}.{!passkey.here && " Made for another address: no use here."}
        </span>
      </p>
      <Button busy={busy && "Removing…"} onClick={onRemove} aria-label={`Remove the passkey ${passkey.name}`}>
        Remove
      </Button>
    </li>
  );
}

function SecondFactor({ required }: { required: boolean }) {
  const set = useAccountAct<boolean>((next) => [
    "/account/second-factor",
    { method: "PUT", body: { required: next } },
  ]);
  return (
    <>
      <Check
        label="Ask for a passkey as well when I sign in with the password"
        checked={set.isPending ? set.variables : required}
        onChange={(next) => set.mutate(next)}
      />
      <ErrorNote error={set.error} />
    </>
  );
}
