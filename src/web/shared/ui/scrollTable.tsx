import type { ReactNode } from "react";
import "./scrollTable.css";

/** A table that may be wider or longer than its place: it scrolls inside, by keyboard too. */
export function ScrollTable({
  label,
  framed,
  children,
}: {
  label: string;
  /** With an edge of its own and a head that stays in sight. */
  framed?: boolean;
  children: ReactNode;
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section className={framed ? "scrolltable framed" : "scrolltable"} aria-label={label} tabIndex={0}>
      <table>{children}</table>
    </section>
  );
}
