import { Dialog } from "../../shared/ui/index.ts";

const keys = [
  { caps: ["J"], does: "Next person" },
  { caps: ["K"], does: "Person before" },
  { caps: ["Enter"], does: "Open the person" },
  { caps: ["N"], does: "Write a note about the person", writes: true },
  { caps: ["P"], does: "All people" },
  { caps: ["?"], does: "These keys" },
] as const;

/** The keys of this page. */
export function KeysDialog({ mayWrite, onClose }: { mayWrite: boolean; onClose: () => void }) {
  const shown = keys.filter((key) => mayWrite || !("writes" in key));
  return (
    <Dialog title="Keys" onClose={onClose}>
      <dl className="today-keylist">
        {shown.map(({ caps, does }) => (
          <div key={does}>
            <dt>
              {caps.map((cap) => (
                <kbd key={cap}>{cap}</kbd>
              ))}
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </Dialog>
  );
}
