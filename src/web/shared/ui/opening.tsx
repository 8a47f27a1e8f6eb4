import { type ReactNode, useEffect } from "react";
import "./opening.css";

/** The head of a page: its one title, a sentence under it, and at most one thing to do beside it. */
export function Opening({
  title,
  lead,
  beside,
  children,
}: {
  title: string;
  /** A sentence that decides. */
  lead?: ReactNode;
  beside?: ReactNode;
  /** Quieter lines under the title. */
  children?: ReactNode;
}) {
  useEffect(() => {
    document.title = `${title} · Roundel`;
  }, [title]);
  return (
    <header className="opening">
      <div>
        <h1 tabIndex={-1}>{title}</h1>
        {lead && <p className="lead">{lead}</p>}
        {children}
      </div>
      {beside}
    </header>
  );
}
