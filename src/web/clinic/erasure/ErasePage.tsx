import { Link, useParams } from "@tanstack/react-router";
import { useState } from "react";
import type { PersonStory } from "../../../record/story/index.ts";
import { usePerson } from "../../shared/api/index.ts";
import { Loaded, Opening } from "../../shared/ui/index.ts";
import { counted } from "../../shared/words/index.ts";
import { LeadOnly } from "../colleagues/LeadOnly.tsx";
import { EraseForm, type Gone } from "./EraseForm.tsx";
import { WhatGoes } from "./WhatGoes.tsx";
import "./erasure.css";

/** Erasing a person on their lawful request: what goes, what stays, and no way back. */
export function ErasePage() {
  return (
    <LeadOnly title="Erase a person">
      <Erasing />
    </LeadOnly>
  );
}

function Erasing() {
  const { personId } = useParams({ from: "/people/$personId/erase" });
  const [gone, setGone] = useState<Gone | null>(null);
  const person = usePerson(personId, { enabled: gone === null });
  if (gone) return <Done gone={gone} />;
  return (
    <Loaded query={{ ...person, data: person.story ?? undefined }} what="the person">
      {(story) => <Asked story={story} onErased={setGone} />}
    </Loaded>
  );
}

function Asked({ story, onErased }: { story: PersonStory; onErased: (gone: Gone) => void }) {
  return (
    <>
      <Opening
        title={`Erase ${story.details.name}`}
        lead="Everything about this person is taken out of the record, for good. Nothing brings it back."
      >
        <p className="small">
          For a lawful request only. What was written wrongly is corrected, and who is no longer cared for is
          simply left:{" "}
          <Link to="/people/$personId" params={{ personId: story.personId }}>
            back to the person’s page
          </Link>
          .
        </p>
      </Opening>
      <WhatGoes story={story} />
      <EraseForm story={story} onErased={onErased} />
    </>
  );
}

function Done({ gone: { entries, photos, accounts, isTraceless } }: { gone: Gone }) {
  return (
    <Opening title="Erased" lead="Nothing about this person is left in the record.">
      <p>
        {counted(entries, "entry", "entries")}, {counted(photos, "photograph", "photographs")} and{" "}
        {counted(accounts, "account", "accounts")} went.
      </p>
      {!isTraceless && (
        <p>
          <b>Another program has the record open:</b> until it closes, older pages of the file may still hold
          what was erased. Close it, then start the bench again.
        </p>
      )}
      <p className="small">
        One line stays in the list of who saw and changed what: that somebody was erased, when, by whom and on
        which ground. It holds no name. Backups made before now still hold the person until they are
        overwritten; should one be restored, the person is erased from it again at once.
      </p>
      <p>
        <Link to="/people">All people</Link>
      </p>
    </Opening>
  );
}
