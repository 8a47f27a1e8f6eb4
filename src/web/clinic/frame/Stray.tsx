import { type ErrorComponentProps, Link } from "@tanstack/react-router";
import { ErrorNote, Opening } from "../../shared/ui/index.ts";

export function NotFound() {
  return (
    <Opening title="No such page" lead="Nothing is kept at this address.">
      <p>
        <Link to="/">Go to Today</Link>
      </p>
    </Opening>
  );
}

/** A page that broke: nothing was lost that had been typed, and the rest of the bench still works. */
export function PageError({ error, reset }: ErrorComponentProps) {
  return (
    <>
      <Opening title="This page could not be shown" />
      <ErrorNote error={error} retry={reset} />
    </>
  );
}
