import { type ReactNode, useEffect, useRef, useState } from "react";
import "./menu.css";

/** A button that opens a short list of further things to do. */
export function Menu({
  label,
  about,
  children,
}: {
  label: string;
  /** Whom or what it is about, where a page has several. */
  about?: string;
  children: ReactNode;
}) {
  const [open, setOpen] = useState(false);
  const element = useRef<HTMLDivElement>(null);
  useEffect(() => (open ? closeWhenLeft(element.current, () => setOpen(false)) : undefined), [open]);
  return (
    <div className="menu" ref={element}>
      <button type="button" className="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {label}
        {about && <span className="hide">, {about}</span>}
        <span aria-hidden="true" className="menu-mark" />
      </button>
      {open && <div className="menu-list">{children}</div>}
    </div>
  );
}

/** Closes on Escape, on a choice, on a press elsewhere and when the focus goes elsewhere. */
function closeWhenLeft(menu: HTMLElement | null, close: () => void): () => void {
  const opener = menu?.querySelector("button");
  const onPointer = (event: Event) => {
    if (!menu?.contains(event.target as Node)) close();
  };
  const onFocus = (event: FocusEvent) => {
    if (event.target instanceof Node && !menu?.contains(event.target)) close();
  };
  const onClick = (event: Event) => {
    // Once the choice itself has been acted on: closed at once, it would be gone before.
    if (event.target instanceof Element && event.target.closest(".menu-list")) setTimeout(close);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    close();
    opener?.focus();
  };
  document.addEventListener("pointerdown", onPointer);
  document.addEventListener("focusin", onFocus);
  document.addEventListener("keydown", onKey);
  menu?.addEventListener("click", onClick);
  return () => {
    document.removeEventListener("pointerdown", onPointer);
    document.removeEventListener("focusin", onFocus);
    document.removeEventListener("keydown", onKey);
    menu?.removeEventListener("click", onClick);
  };
}
