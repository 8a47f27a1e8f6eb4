import type { PersonStory } from "../../../record/story/index.ts";
import { counted } from "../../shared/words/index.ts";

/** Two lists, so that nobody has to guess. */
export function WhatGoes({ story }: { story: PersonStory }) {
  const entries = story.history.reduce((sum, { corrections }) => sum + 1 + corrections.length, 0);
  return (
    <div className="erase-what">
      <section>
        <h2>What goes</h2>
        <ul>
          <li>Name, birth date, record number and every other detail.</li>
          <li>
            All <b>{counted(entries, "entry", "entries")}</b> about {story.details.name}, corrections and what
            was taken back included.
          </li>
          <li>
            {counted(story.stomas.length, "stoma", "stomas")} with every measurement, curve and cutting sheet
            on record.
          </li>
          <li>Photographs, with the keys that open them.</li>
          <li>The person’s own account and their helper’s, and what devices at home still keep.</li>
        </ul>
      </section>
      <section>
        <h2>What stays</h2>
        <ul>
          <li>One line of who did this, when and on which ground. It holds a number and no name.</li>
          <li>Who looked at the person before, under that same number.</li>
          <li>
            Backups made until now, until they are overwritten. One that is restored has the person erased
            again before anybody sees it.
          </li>
          <li>What was printed or taken out as a file: that is the clinic’s to destroy.</li>
        </ul>
      </section>
    </div>
  );
}
