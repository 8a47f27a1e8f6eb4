import { Link } from "@tanstack/react-router";
import type { Account } from "../../../record/accounts/account.ts";
import { Button, Menu } from "../../shared/ui/index.ts";
import { dayIn, nearDay } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import type { ColleagueAct } from "./ColleaguesPage.tsx";
import { roleWords } from "./roles.ts";

/** One colleague: name, role, how they sign in, and what can be done about the account. */
export function ColleagueLine({ account, onAct }: { account: Account; onAct: (act: ColleagueAct) => void }) {
  const { account: own, today, clinic } = useBench();
  const isOwn = account.accountId === own.accountId;
  const since = nearDay(dayIn(clinic.details.timeZone, account.createdMs), today);
  return (
    <li className="colleague">
      <p className="colleague-who">
        <b>{account.displayName}</b>
        <span>
          {roleWords[account.role]}
          {isOwn && ", you"}
        </span>
      </p>
      <p className="small">
        {account.demo ? "Signed in by itself: this is a demo" : waysWords(account)}
        <span className="note">Since {since}</span>
      </p>
      <div className="colleague-acts">
        {isOwn ? (
          <Link to="/account">My account</Link>
        ) : (
          <>
            <Button onClick={() => onAct("role")} aria-label={`Change the role of ${account.displayName}`}>
              Change role
            </Button>
            <Menu label="More" about={account.displayName}>
              <button type="button" onClick={() => onAct("recovery")}>
                Link for a new password
              </button>
              <Link to="/clinic/audit" search={{ account: account.accountId }}>
                What they saw and changed
              </Link>
              <button type="button" onClick={() => onAct("close")}>
                Close the account
              </button>
            </Menu>
          </>
        )}
      </div>
    </li>
  );
}

/** "Signs in as “hal” with a password and a passkey" */
function waysWords({ signInName, hasPassword, passkeys, secondFactor }: Account): string {
  const name = `Signs in as “${signInName}”`;
  if (!hasPassword) return passkeys > 0 ? `${name} with a passkey` : `${name} once a link is used`;
  if (passkeys === 0) return `${name} with a password`;
  return `${name} with a password ${secondFactor ? "and" : "or"} a passkey`;
}
