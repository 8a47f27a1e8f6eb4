import { useState } from "react";
import type { Account } from "../../../record/accounts/account.ts";
import { useAccountAct } from "../../shared/api/index.ts";
import { Button, ErrorNote, Field, Form } from "../../shared/ui/index.ts";
import { Part } from "./Part.tsx";

/** The name that stands beside what one writes. */
export function NamePart({ account }: { account: Account }) {
  const [name, setName] = useState(account.displayName);
  const [tried, setTried] = useState(false);
  const rename = useAccountAct<string>((displayName) => [
    "/account",
    { method: "PUT", body: { displayName } },
  ]);
  const changed = name.trim() !== account.displayName;
  const send = () => {
    setTried(true);
    if (name.trim() && changed) rename.mutate(name.trim());
  };
  return (
    <Part
      title="Name"
      about={
        <>
          Stands beside everything you write from now on. You sign in as <b>{account.signInName}</b>.
        </>
      }
    >
      <Form label="Name" onSend={send}>
        <div className="account-fields">
          <Field
            label="Name shown"
            autoComplete="name"
            value={name}
            onChange={setName}
            error={tried && !name.trim() ? "Write your name: every entry says who made it." : undefined}
          />
        </div>
        <ErrorNote error={rename.error} />
        <p className="formend">
          <Button type="submit" busy={rename.isPending}>
            Change the name
          </Button>
          {rename.isSuccess && !changed && <span role="status">Changed.</span>}
        </p>
      </Form>
    </Part>
  );
}
