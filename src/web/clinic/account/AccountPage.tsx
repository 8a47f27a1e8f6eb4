import { type OwnAccount, useOwnAccount } from "../../shared/api/index.ts";
import { Loaded, Opening } from "../../shared/ui/index.ts";
import { roleMay, roleWords } from "../colleagues/roles.ts";
import { useBench } from "../frame/index.tsx";
import { NamePart } from "./NamePart.tsx";
import { PasskeysPart } from "./PasskeysPart.tsx";
import { PasswordPart } from "./PasswordPart.tsx";
import { SessionsPart } from "./SessionsPart.tsx";
import "./account.css";

/** One's own account: how one signs in, and where one is signed in now. */
export function AccountPage() {
  const own = useOwnAccount();
  const { account } = useBench();
  return (
    <>
      <Opening
        title="My account"
        lead={`${account.displayName}, ${roleWords[account.role].toLowerCase()}: you may ${roleMay[account.role]}.`}
      />
      <Loaded query={own} what="your account">
        {(data) => <Parts own={data} />}
      </Loaded>
    </>
  );
}

function Parts({ own }: { own: OwnAccount }) {
  const { demo } = own.account;
  return (
    <div className="account">
      {demo ? (
        <p className="account-demo">
          This is the demo’s account: nobody signs in to it, and nothing of it can be changed.
        </p>
      ) : (
        <>
          <NamePart account={own.account} />
          <PasswordPart account={own.account} />
          <PasskeysPart own={own} />
        </>
      )}
      <SessionsPart sessions={own.sessions} />
    </div>
  );
}
