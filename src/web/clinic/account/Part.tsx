import type { ReactNode } from "react";

/** One side of the account: what it is on the left, what can be done about it on the right. */
export function Part({ title, about, children }: { title: string; about: ReactNode; children: ReactNode }) {
  return (
    <section className="account-part">
      <header>
        <h2>{title}</h2>
        <p className="note account-about">{about}</p>
      </header>
      <div>{children}</div>
    </section>
  );
}
