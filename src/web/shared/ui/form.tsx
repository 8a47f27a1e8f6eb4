import { type ReactNode, useRef } from "react";

/** A form whose first doubtful field takes the focus when it could not be sent. */
export function Form({
  onSend,
  children,
  label,
}: {
  onSend: () => void;
  children: ReactNode;
  label?: string;
}) {
  const element = useRef<HTMLFormElement>(null);
  return (
    <form
      ref={element}
      noValidate
      aria-label={label}
      onSubmit={(event) => {
        event.preventDefault();
        onSend();
        requestAnimationFrame(() => focusFirstWrong(element.current));
      }}
    >
      {children}
    </form>
  );
}

function focusFirstWrong(form: HTMLFormElement | null): void {
  const wrong = form?.querySelector<HTMLElement>("[aria-invalid]");
  const target = wrong?.matches("[role=radiogroup]") ? wrong.querySelector<HTMLElement>("input") : wrong;
  target?.focus();
}
