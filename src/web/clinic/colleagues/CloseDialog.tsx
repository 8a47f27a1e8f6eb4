import type { Account } from "../../../record/accounts/account.ts";
import { useAccountAct } from "../../shared/api/index.ts";
import { Button, Dialog, ErrorNote } from "../../shared/ui/index.ts";

/** Somebody has left: what closing does, and what it leaves. */
export function CloseDialog({ account, onClose }: { account: Account; onClose: () => void }) {
  const close = useAccountAct<null>(() => [`/accounts/${account.accountId}/close`, { method: "POST" }]);
  return (
    <Dialog title={`Close the account of ${account.displayName}`} onClose={onClose}>
      <p>
        <b>{account.displayName}</b> is signed out everywhere and cannot sign in again. A closed account is
        not opened again: should they come back, add them anew.
      </p>
      <p className="small">
        What they wrote stays in the record under their name, and so does what they saw.
      </p>
      <ErrorNote error={close.error} />
      <p className="formend">
        <Button
          first
          busy={close.isPending && "Closing…"}
          onClick={() => close.mutate(null, { onSuccess: onClose })}
        >
          Close the account
        </Button>
        <Button onClick={onClose}>Keep it</Button>
      </p>
    </Dialog>
  );
}
