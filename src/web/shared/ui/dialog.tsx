import { type ReactNode, useEffect, useId, useLayoutEffect, useRef } from "react";
import "./dialog.css";

interface DialogProps {
  title: string;
  /** Left out where the question must be answered: then Escape does nothing and there is no closing button. */
  onClose?: () => void;
  /** It breaks into what somebody is doing. */
  urgent?: boolean;
  /** Hides the page behind it, which is nobody's to read just now. */
  veiled?: boolean;
  children: ReactNode;
}

/**
 * A question or a form above the page. The native element keeps the focus inside, closes on Escape and makes
 * the rest inert; the focus goes back to where it was.
 */
export function Dialog({ title, onClose, urgent, veiled, children }: DialogProps) {
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
  useNoEscape(!onClose);
  return (
    <dialog
      ref={element}
      className={veiled ? "dialog veiled" : "dialog"}
      role={urgent ? "alertdialog" : undefined}
      aria-labelledby={id}
      aria-describedby={urgent ? `${id}-says` : undefined}
      onCancel={(event) => {
        event.preventDefault();
        onClose?.();
      }}
    >
      <header>
        <h2 id={id}>{title}</h2>
        {onClose && (
          <button type="button" className="close" onClick={onClose}>
            Close
          </button>
        )}
      </header>
      {urgent ? <div id={`${id}-says`}>{children}</div> : children}
    </dialog>
  );
}

/** A browser lets a second Escape close what refused the first, unless it never hears of the key. */
function useNoEscape(isShut: boolean): void {
  useEffect(() => {
    if (!isShut) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.key === "Escape") event.preventDefault();
    };
    addEventListener("keydown", onKey, { capture: true });
    return () => removeEventListener("keydown", onKey, { capture: true });
  }, [isShut]);
}

/** Where one begins to type: the chosen radio or the first field; the closing button only where there is none. */
function firstField(dialog: HTMLElement): HTMLElement | null {
  const field = dialog.querySelector<HTMLElement>("input:not([tabindex='-1']), select, textarea");
  return field?.matches("[type=radio]")
    ? (dialog.querySelector<HTMLElement>("input:checked") ?? field)
    : field;
}
