import { Link } from "@tanstack/react-router";
import { Opening } from "../../shared/ui/index.ts";

/** In place of a page that writes, for somebody whose role reads. */
export function ReadOnly({ title }: { title: string }) {
  return (
    <Opening title={title} lead="Your account reads and does not write.">
      <p>
        <Link to="/people">All people</Link>
      </p>
    </Opening>
  );
}
