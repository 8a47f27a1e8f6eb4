import { useState } from "react";
import type { Account } from "../../../record/accounts/account.ts";
import { type Accounts, type OpenLink, useAccountAct, useAccounts } from "../../shared/api/index.ts";
import { Button, ErrorNote, Loaded, Opening } from "../../shared/ui/index.ts";
import { about, counted, plainDay } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { AddColleagueDialog } from "./AddColleagueDialog.tsx";
import { CloseDialog } from "./CloseDialog.tsx";
import { ColleagueLine } from "./ColleagueLine.tsx";
import { LeadOnly } from "./LeadOnly.tsx";
import { RecoveryDialog } from "./RecoveryDialog.tsx";
import { RoleDialog } from "./RoleDialog.tsx";
import { roleWords } from "./roles.ts";
import "./colleagues.css";

/** What may be done about a colleague's account. */
export type ColleagueAct = "role" | "recovery" | "close";

/** Who has an account here, and what they may do. */
export function ColleaguesPage() {
  const accounts = useAccounts({ enabled: useBench().may.lead });
  const [adding, setAdding] = useState(false);
  return (
    <LeadOnly title="Colleagues">
      <Opening
        title="Colleagues"
        lead="Who has an account here. An account is one person’s: what it writes carries their name."
        beside={
          <Button first onClick={() => setAdding(true)}>
            Add a colleague
          </Button>
        }
      />
      <Loaded query={accounts} what="the accounts">
        {(data) => <Everybody data={data} />}
      </Loaded>
      {adding && <AddColleagueDialog onClose={() => setAdding(false)} />}
    </LeadOnly>
  );
}

function Everybody({ data: { accounts, links } }: { data: Accounts }) {
  const [asked, setAsked] = useState<{ act: ColleagueAct; account: Account } | null>(null);
  const atBench = accounts.filter(({ personId }) => personId === null);
  const open = atBench.filter(({ closedMs }) => closedMs === null);
  const closed = atBench.filter(({ closedMs }) => closedMs !== null);
  const close = () => setAsked(null);
  return (
    <>
      <ul className="colleagues">
        {open.map((account) => (
          <ColleagueLine
            key={account.accountId}
            account={account}
            onAct={(act) => setAsked({ act, account })}
          />
        ))}
      </ul>
      {links.length > 0 && <OpenLinks links={links} accounts={accounts} />}
      {closed.length > 0 && <Closed accounts={closed} />}
      {asked?.act === "role" && <RoleDialog account={asked.account} onClose={close} />}
      {asked?.act === "recovery" && <RecoveryDialog account={asked.account} onClose={close} />}
      {asked?.act === "close" && <CloseDialog account={asked.account} onClose={close} />}
    </>
  );
}

/** Links that nobody has opened yet: each lets somebody in, so each can be taken back. */
function OpenLinks({ links, accounts }: Accounts) {
  const withdraw = useAccountAct<string>((linkId) => [`/accounts/links/${linkId}`, { method: "DELETE" }]);
  const nameFor = ({ accountId, displayName }: OpenLink) =>
    displayName ?? accounts.find((account) => account.accountId === accountId)?.displayName ?? "somebody";
  return (
    <section className="colleagues-part">
      <h2>Links not used yet</h2>
      <ul className="colleagues-links">
        {links.map((link) => (
          <li key={link.linkId}>
            <p>
              <b>{nameFor(link)}</b>
              <span className="note">
                {link.role ? `To join as ${roleWords[link.role].toLowerCase()}` : "For a new password"}. Good
                for {about(link.expiresMs - Date.now())}.
              </span>
            </p>
            <Button
              busy={withdraw.isPending && withdraw.variables === link.linkId && "Taking it back…"}
              onClick={() => withdraw.mutate(link.linkId)}
              aria-label={`Take back the link for ${nameFor(link)}`}
            >
              Take it back
            </Button>
          </li>
        ))}
      </ul>
      <ErrorNote error={withdraw.error} />
    </section>
  );
}

function Closed({ accounts }: { accounts: Account[] }) {
  const { today } = useBench();
  const day = (ms: number) => plainDay(new Date(ms).toISOString().slice(0, 10), today);
  return (
    <details className="colleagues-part">
      <summary>{counted(accounts.length, "closed account", "closed accounts")}</summary>
      <ul className="colleagues-links">
        {accounts.map(({ accountId, displayName, role, closedMs }) => (
          <li key={accountId}>
            <p>
              <b>{displayName}</b>
              <span className="note">
                {roleWords[role]}, closed {day(closedMs!)}. What was written stays under this name.
              </span>
            </p>
          </li>
        ))}
      </ul>
    </details>
  );
}
