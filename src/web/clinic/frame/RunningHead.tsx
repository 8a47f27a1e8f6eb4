import { Link } from "@tanstack/react-router";
import type { Session } from "../../../record/session.ts";
import { SignOutButton } from "../entry/SignOutButton.tsx";

const parts = [
  { to: "/", words: "Today" },
  { to: "/people", words: "People" },
  { to: "/protocol", words: "Protocol" },
  { to: "/clinic", words: "Clinic" },
] as const;

/** The running head, as at the top of a book page: name, parts, clinic, who is signed in, and the word Demo. */
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
        {clinic && <span className="wide">{clinic.name}</span>}
        {session?.demo && <b>Demo, invented people</b>}
        {session?.account && (
          <>
            <Link to="/account" activeProps={{ "aria-current": "page" }}>
              {session.account.displayName}
              <span className="hide">, my account</span>
            </Link>
            <SignOutButton />
          </>
        )}
      </p>
    </header>
  );
}
