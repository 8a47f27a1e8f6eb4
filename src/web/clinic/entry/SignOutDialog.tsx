import { Button, Dialog, ErrorNote } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";

/** What signing out would drop, or why it did not come about. */
export default function SignOutDialog({
  kept,
  error,
  busy,
  onSignOut,
  onClose,
}: {
  kept: number;
  error: Error | null;
  busy: boolean;
  onSignOut: () => void;
  onClose: () => void;
}) {
  return (
    <Dialog title="Sign out" onClose={onClose}>
      {kept > 0 && (
        <p>
          <b>{counted(kept, "thing", "things")}</b> typed in this tab {kept === 1 ? "is" : "are"} not saved.
          Signing out drops {kept === 1 ? "it" : "them"}.
        </p>
      )}
      {error && <p>You are still signed in.</p>}
      <ErrorNote error={error} />
      <p className="formend">
        <Button first busy={busy && "Signing out…"} onClick={onSignOut}>
          {kept > 0 ? "Drop and sign out" : "Try again"}
        </Button>
        <Button onClick={onClose}>Stay</Button>
      </p>
    </Dialog>
  );
}
