import { Link, useParams } from "@tanstack/react-router";
import type { PersonStory } from "../../../record/story/index.ts";
import { ApiError, usePerson } from "../../shared/api/index.ts";
import { ErrorNote, LoadingNote, Opening } from "../../shared/ui/index.ts";
import { PersonView } from "./PersonView.tsx";

/** Everything about one person. */
export function PersonPage() {
  const { personId } = useParams({ from: "/people/$personId" });
  const { story, error, isError, refetch } = usePerson(personId);
  // Whoever was erased meanwhile is not shown on from what was fetched before.
  if (error instanceof ApiError && error.code === "noSuchPerson") return <NoSuchPerson />;
  if (story) return <PersonView key={personId} story={story satisfies PersonStory} />;
  if (story === null) return <NoSuchPerson />;
  if (isError) return <ErrorNote error={error} retry={() => refetch()} />;
  return <LoadingNote what="the person" />;
}

function NoSuchPerson() {
  return (
    <Opening title="Nobody at this address" lead="No person with this id is on record, or not any more.">
      <p>
        <Link to="/people">Look among all people</Link>
      </p>
    </Opening>
  );
}
