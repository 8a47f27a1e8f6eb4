import { type ReactNode, useEffect, useId, useRef, useState } from "react";
import type { MadeLink } from "../../shared/api/index.ts";
import { Button } from "../../shared/ui/index.ts";
import { about } from "../../shared/words/index.ts";

/** A one-time link, to be copied now: the bench keeps no copy of it. */
export function LinkShown({
  made: { link, expiresMs },
  onDone,
  children,
}: {
  made: MadeLink;
  onDone: () => void;
  /** What the link does, and how to hand it over. */
  children: ReactNode;
}) {
  const id = useId();
  const field = useRef<HTMLTextAreaElement>(null);
  const [said, setSaid] = useState("");
  // It stands where the form was: whoever typed there goes on here.
  useEffect(() => field.current?.focus(), []);
  const copy = async () => {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(link);
      setSaid("Copied.");
    } catch {
      // Browsers copy by themselves at safe addresses only.
      setSaid("It is marked: copy it with Ctrl C.");
    }
  };
  return (
    <div className="linkshown">
      <p>{children}</p>
      <label htmlFor={id} className="small">
        <b>The link, shown once</b>
      </label>
      <textarea id={id} ref={field} readOnly rows={3} value={link} spellCheck={false} />
      <p className="note">
        It works once and is good for {about(expiresMs - Date.now())}. It cannot be shown again; another one
        can be made.
      </p>
      <p className="formend">
        <Button first onClick={copy}>
          Copy the link
        </Button>
        <Button onClick={onDone}>Done</Button>
        <span role="status">{said}</span>
      </p>
    </div>
  );
}
