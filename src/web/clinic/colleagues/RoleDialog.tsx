import { useState } from "react";
import type { Account } from "../../../record/accounts/account.ts";
import { useAccountAct } from "../../shared/api/index.ts";
import { Button, Dialog, ErrorNote, Form } from "../../shared/ui/index.ts";
import { type BenchRole, RoleChoice } from "./RoleChoice.tsx";

/** What a colleague may do from now on. */
export function RoleDialog({ account, onClose }: { account: Account; onClose: () => void }) {
  const [role, setRole] = useState<BenchRole>(account.role as BenchRole);
  const change = useAccountAct<BenchRole>((next) => [
    `/accounts/${account.accountId}`,
    { method: "PUT", body: { role: next } },
  ]);
  const send = () => {
    if (role === account.role) onClose();
    else change.mutate(role, { onSuccess: onClose });
  };
  return (
    <Dialog title={`Role of ${account.displayName}`} onClose={onClose}>
      <Form onSend={send}>
        <RoleChoice value={role} onChange={setRole} />
        <p className="small">From their next press on. What they wrote before stays as it is.</p>
        <ErrorNote error={change.error} />
        <p className="formend">
          <Button first type="submit" busy={change.isPending}>
            Set the role
          </Button>
          <Button onClick={onClose}>Not now</Button>
        </p>
      </Form>
    </Dialog>
  );
}
