import { Link } from "@tanstack/react-router";
import type { Session } from "../../../record/session.ts";

const parts = [
  { to: "/", words: "Today" },
  { to: "/people", words: "People" },
  { to: "/protocol", words: "Protocol" },
  { to: "/clinic", words: "Clinic" },
] as const;

/** The running head, as at the top of a book page: name, parts, clinic, and the word Demo. */
export function RunningHead({ session }: { session: Session | undefined }) {
  const clinic = session?.clinic?.details;
  return (
    <header className="runhead">
      <Link className="mark" to="/">
        Roundel
      </Link>
      {clinic && (
        <nav aria-label="Parts">
          {parts.map(({ to, words }) => (
            <Link
              key={to}
              to={to}
              activeOptions={{ exact: to === "/" }}
              activeProps={{ "aria-current": "page" }}
            >
              {words}
            </Link>
          ))}
        </nav>
      )}
      <p>
        {clinic && (
          <span className="wide">
            {clinic.name} · {session?.author?.name ?? clinic.nurse.name}
            {session.demo && " · "}
          </span>
        )}
        {session?.demo && <b>Demo, invented people</b>}
      </p>
    </header>
  );
}
