import { type ReactNode, useId, useLayoutEffect, useRef } from "react";
import "./dialog.css";

/**
 * A question or a form above the page. The native element keeps the focus inside, closes on Escape and makes
 * the rest inert; the focus goes back to where it was.
 */
export function Dialog({
  title,
  onClose,
  children,
}: {
  title: string;
  onClose: () => void;
  children: ReactNode;
}) {
  const element = useRef<HTMLDialogElement>(null);
  const id = useId();
  useLayoutEffect(() => {
    const dialog = element.current;
    if (dialog && !dialog.open) {
      dialog.showModal();
      firstField(dialog)?.focus();
    }
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={element}
      className="dialog"
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <header>
        <h2 id={id}>{title}</h2>
        <button type="button" className="close" onClick={onClose}>
          Close
        </button>
      </header>
      {children}
    </dialog>
  );
}

/** Where one begins to type: the chosen radio or the first field; the closing button only where there is none. */
function firstField(dialog: HTMLElement): HTMLElement | null {
  const field = dialog.querySelector<HTMLElement>("input, select, textarea");
  return field?.matches("[type=radio]")
    ? (dialog.querySelector<HTMLElement>("input:checked") ?? field)
    : field;
}
