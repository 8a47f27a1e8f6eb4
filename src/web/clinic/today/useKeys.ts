import { useNavigate } from "@tanstack/react-router";
import { useEffect } from "react";

/** J and K move the focus along the list, so that Enter opens and a screen reader says where one is. */
export function useKeys({ onHelp, mayWrite }: { onHelp: () => void; mayWrite: boolean }): void {
  const navigate = useNavigate();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
      const act: Record<string, () => void> = {
        j: () => move(1),
        k: () => move(-1),
        p: () => navigate({ to: "/people" }),
        n: () => {
          const personId = mayWrite ? chosenPerson() : null;
          if (personId)
            navigate({ to: "/people/$personId", params: { personId }, search: { write: "noted" } });
        },
        "?": onHelp,
      };
      const chosen = act[event.key.toLowerCase()];
      if (!chosen) return;
      event.preventDefault();
      chosen();
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, [navigate, onHelp, mayWrite]);
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest("input, textarea, select, dialog") !== null;
}

function lines(): HTMLAnchorElement[] {
  return [...document.querySelectorAll<HTMLAnchorElement>("a[data-line]")];
}

function move(step: 1 | -1): void {
  const all = lines();
  const here = all.indexOf(document.activeElement as HTMLAnchorElement);
  const next = here === -1 ? (step === 1 ? 0 : all.length - 1) : here + step;
  const target = all[Math.max(0, Math.min(all.length - 1, next))];
  target?.focus();
  target?.closest("li")?.scrollIntoView({ block: "nearest" });
}

function chosenPerson(): string | null {
  const focused = document.activeElement?.closest(".today-line")?.querySelector("a[data-line]");
  return focused instanceof HTMLAnchorElement ? (focused.pathname.split("/").at(-1) ?? null) : null;
}
