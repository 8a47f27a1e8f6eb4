import { useState } from "react";
import { type MadeLink, useAccountAct } from "../../shared/api/index.ts";
import { Button, Dialog, ErrorNote, Field, Form } from "../../shared/ui/index.ts";
import { LinkShown } from "./LinkShown.tsx";
import { type BenchRole, RoleChoice } from "./RoleChoice.tsx";

interface NewColleague {
  displayName: string;
  role: BenchRole;
}

/** Who it is and what they may do; they choose their password themselves, through the link. */
export function AddColleagueDialog({ onClose }: { onClose: () => void }) {
  const [displayName, setDisplayName] = useState("");
  const [role, setRole] = useState<BenchRole | "">("");
  const [tried, setTried] = useState(false);
  const make = useAccountAct<NewColleague, MadeLink>((body) => ["/accounts/links", { method: "POST", body }]);
  const name = displayName.trim();
  const send = () => {
    setTried(true);
    if (name && role) make.mutate({ displayName: name, role });
  };
  return (
    <Dialog title="Add a colleague" onClose={onClose}>
      {make.data ? (
        <LinkShown made={make.data} onDone={onClose}>
          Whoever opens it first has the account of <b>{name}</b>. Hand it over yourself, or send it by a way
          that only they can read.
        </LinkShown>
      ) : (
        <Form onSend={send}>
          <Field
            label="Name shown"
            autoComplete="off"
            value={displayName}
            onChange={setDisplayName}
            error={tried && !name ? "Write their name: every entry says who made it." : undefined}
            hint="As it is to stand beside what they write."
          />
          <RoleChoice
            value={role}
            onChange={setRole}
            error={tried && !role ? "Choose what they may do." : undefined}
          />
          <ErrorNote error={make.error} />
          <p className="formend">
            <Button first type="submit" busy={make.isPending && "Making it…"}>
              Make a link
            </Button>
            <Button onClick={onClose}>Not now</Button>
          </p>
        </Form>
      )}
    </Dialog>
  );
}
