/** Tells that the form holds what was typed before, and offers to begin anew. */
export function KeptNote({ onForget }: { onForget: () => void }) {
  return (
    <p className="kept-note">
      Kept from before: typed in this tab and not yet saved.{" "}
      <button type="button" onClick={onForget}>
        Start again
      </button>
    </p>
  );
}
