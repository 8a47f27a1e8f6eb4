import type { KeyboardEvent } from "react";

/** Arrow keys: from the field down into the list, along it, and back up; Escape goes back to the field. */
export function moveAlong(event: KeyboardEvent<HTMLElement>): void {
  const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  const finder = event.currentTarget.querySelector<HTMLElement>("[data-finder]");
  const lines = [...event.currentTarget.querySelectorAll<HTMLElement>("[data-line]")];
  const here = lines.indexOf(document.activeElement as HTMLElement);
  if (event.key === "Escape" && here >= 0) {
    event.preventDefault();
    finder?.focus();
    return;
  }
  if (step === undefined) return;
  const target = here + step < 0 ? finder : lines[here + step];
  if (!target || (here < 0 && step < 0)) return;
  event.preventDefault();
  target.focus();
}
