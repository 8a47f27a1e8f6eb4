import { Link } from "@tanstack/react-router";
import type { PersonStory, StomaStory } from "../../../../record/story/index.ts";
import { Button, Menu } from "../../../shared/ui/index.ts";
import type { Writing } from "../../routes.tsx";

/** What can be written about this person; the usual two stand open. */
export function WritingMenu({
  story,
  stoma,
  onWrite,
}: {
  story: PersonStory;
  stoma: StomaStory | undefined;
  onWrite: (what: Writing) => void;
}) {
  const more: { what: Writing; words: string; needsStoma?: boolean }[] = [
    { what: "fitted", words: "New pouching system", needsStoma: true },
    { what: "skin", words: "Record the skin", needsStoma: true },
    { what: "consented", words: "Photographs: what the person says" },
    { what: "event", words: "Record an event" },
    { what: "person", words: "Change the person’s details" },
    { what: "stoma", words: "Change the stoma’s details", needsStoma: true },
    { what: "newStoma", words: "Add a stoma" },
  ];
  return (
    <div className="writing-menu">
      {stoma && <Button onClick={() => onWrite("changed")}>Record a change</Button>}
      <Button onClick={() => onWrite("noted")}>Write a note</Button>
      <Menu label="More">
        {more
          .filter(({ needsStoma }) => stoma || !needsStoma)
          .map(({ what, words }) => (
            <button key={what} type="button" onClick={() => onWrite(what)}>
              {words}
            </button>
          ))}
        {stoma && (
          <Link
            to="/people/$personId/import"
            params={{ personId: story.personId }}
            search={{ stoma: stoma.stomaId }}
          >
            Import a log of changes
          </Link>
        )}
      </Menu>
    </div>
  );
}
