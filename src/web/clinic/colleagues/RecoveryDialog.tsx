import type { Account } from "../../../record/accounts/account.ts";
import { type MadeLink, useAccountAct } from "../../shared/api/index.ts";
import { Button, Dialog, ErrorNote } from "../../shared/ui/index.ts";
import { LinkShown } from "./LinkShown.tsx";

/** A way back in for a colleague who forgot the password or lost the passkey. */
export function RecoveryDialog({ account, onClose }: { account: Account; onClose: () => void }) {
  const make = useAccountAct<null, MadeLink>(() => [
    `/accounts/${account.accountId}/recovery`,
    { method: "POST" },
  ]);
  return (
    <Dialog title={`A new password for ${account.displayName}`} onClose={onClose}>
      {make.data ? (
        <LinkShown made={make.data} onDone={onClose}>
          Whoever opens it first can sign in as <b>{account.displayName}</b>. Hand it over yourself, or send
          it by a way that only they can read.
        </LinkShown>
      ) : (
        <>
          <p>
            You get a link to hand over; through it they choose a password that you never see. Make sure that
            it is really they who ask.
          </p>
          <p className="small">
            Once it is used, they are signed out everywhere else. It also works where too many wrong passwords
            have put a wait on the account.
          </p>
          <ErrorNote error={make.error} />
          <p className="formend">
            <Button first busy={make.isPending && "Making it…"} onClick={() => make.mutate(null)}>
              Make a link
            </Button>
            <Button onClick={onClose}>Not now</Button>
          </p>
        </>
      )}
    </Dialog>
  );
}
