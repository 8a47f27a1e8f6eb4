import { useNavigate, useSearch } from "@tanstack/react-router";
import { type Accounts, useAccounts, useTakeOut } from "../../shared/api/index.ts";
import { Button, ErrorNote, Loaded, Opening, Select } from "../../shared/ui/index.ts";
import { LeadOnly } from "../colleagues/LeadOnly.tsx";
import { roleWords } from "../colleagues/roles.ts";
import { useBench } from "../frame/index.tsx";
import { Lines } from "./Lines.tsx";
import { PersonFilter } from "./PersonFilter.tsx";
import "./audit.css";

/** Who saw and changed what: every look at a person and every change, each a line that is never taken away. */
export function AuditPage() {
  const { may } = useBench();
  const accounts = useAccounts({ enabled: may.lead });
  return (
    <LeadOnly title="Who saw and changed what">
      <Opening
        title="Who saw and changed what"
        lead="Every look at a person and every change, the newest first. The lines keep no names and nothing that was written; names are put to them here."
        beside={<TakeOutAudit />}
      />
      <Loaded query={accounts} what="the accounts">
        {(data) => <Filtered accounts={data.accounts} />}
      </Loaded>
    </LeadOnly>
  );
}

function TakeOutAudit() {
  const takeOut = useTakeOut();
  return (
    <div>
      <Button busy={takeOut.isPending && "Taking them out…"} onClick={() => takeOut.mutate("/audit.jsonl")}>
        Take out all lines
      </Button>
      <ErrorNote error={takeOut.error} />
    </div>
  );
}

function Filtered({ accounts }: Pick<Accounts, "accounts">) {
  const { person, account } = useSearch({ from: "/clinic/audit" });
  const navigate = useNavigate({ from: "/clinic/audit" });
  const choose = (part: { person?: string; account?: string }) =>
    navigate({ search: (search) => ({ ...search, ...part }), replace: true, resetScroll: false });
  return (
    <>
      <search className="audit-filter">
        <Select
          label="By"
          value={account ?? ""}
          onChange={(accountId) => choose({ account: accountId || undefined })}
          choices={[
            { value: "", label: "Everybody" },
            ...accounts.map(({ accountId, displayName, role, closedMs }) => ({
              value: accountId,
              label: `${displayName}, ${roleWords[role].toLowerCase()}${closedMs === null ? "" : ", closed"}`,
            })),
          ]}
        />
        <PersonFilter personId={person} onChange={(personId) => choose({ person: personId })} />
      </search>
      <Lines
        filter={{ personId: person, accountId: account }}
        nameOfAccount={(id) => accounts.find(({ accountId }) => accountId === id)?.displayName}
      />
    </>
  );
}
