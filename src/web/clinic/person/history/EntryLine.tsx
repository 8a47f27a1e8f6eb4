import { memo } from "react";
import type { Effective } from "../../../../record/effective/index.ts";
import type { PersonStory } from "../../../../record/story/index.ts";
import { FootnoteMark } from "../../../shared/ui/index.ts";
import { kindWords, stomaWords, timeOfDay, whenWords } from "../../../shared/words/index.ts";
import { useBench } from "../../frame/index.tsx";
import { useWrite } from "../writing/useWriting.ts";
import { changedParts, partsOf } from "./parts.ts";

/** One entry: what it says, what was corrected in it struck through, and who wrote it when. */
export const EntryLine = memo(function EntryLine({
  one,
  letter,
  story,
}: {
  one: Effective;
  letter: string | undefined;
  story: PersonStory;
}) {
  const { entry, retracted } = one;
  const time = "instant" in entry.at ? timeOfDay(entry.at.instant, entry.at.zone) : "";
  return (
    <li className={retracted ? "entry taken-back" : "entry"} id={`entry-${one.first.id}`}>
      <span className="entry-time">{time}</span>
      <div>
        <p>
          <b>{kindWords[entry.kind]}</b>
          {letter && <FootnoteMark letter={letter} />} <What one={one} />
          {retracted && <b> Taken back.</b>}
        </p>
        <Provenance one={one} story={story} />
      </div>
      <Acts one={one} />
    </li>
  );
});

function What({ one }: { one: Effective }) {
  const { today } = useBench();
  const now = partsOf(one.entry, today);
  const changed = new Map(
    changedParts(partsOf(one.first, today), now).map((part) => [part.label, part] as const),
  );
  const gone = [...changed.values()].filter(({ is }) => is === null);
  const said = now.filter(({ label }) => label !== "when" || changed.has(label));
  const Wrap = one.retracted ? "del" : "span";
  return (
    <Wrap>
      {said.map(({ label, words }, index) => (
        <span key={label}>
          {index > 0 && " · "}
          {unlabelled.has(label) ? "" : `${label} `}
          {changed.get(label)?.was && <del>{changed.get(label)?.was}</del>} {words}
        </span>
      ))}
      {gone.map(({ label, was }) => (
        <span key={label}>
          {" · "}
          {label} <del>{was}</del>
        </span>
      ))}
    </Wrap>
  );
}

/** Parts whose words say what they are. */
const unlabelled = new Set([
  "name",
  "type",
  "how",
  "what",
  "why",
  "where",
  "system",
  "kind",
  "note",
  "shape",
  "posture",
  "said",
  "value",
]);

function Provenance({ one: { entry, first }, story }: { one: Effective; story: PersonStory }) {
  const { today, clinic } = useBench();
  const zone = clinic.details.timeZone;
  const recorded = whenWords({ instant: first.recordedAt, zone }, today);
  const stoma =
    story.stomas.length > 1 ? story.stomas.find(({ stomaId }) => stomaId === entry.stomaId) : undefined;
  return (
    <p className="note">
      {first.by.name}, written down {recorded}
      {stoma && ` · ${stoma.details.label ?? stomaWords(stoma.details.type, stoma.details.construction)}`}
    </p>
  );
}

function Acts({ one }: { one: Effective }) {
  const { may } = useBench();
  const write = useWrite();
  const named = kindWords[one.entry.kind].toLowerCase();
  const canCorrect = one.entry.kind !== "advised";
  if (!may.write) return null;
  return (
    <p className="entry-acts">
      {canCorrect && (
        <button
          type="button"
          onClick={() => write("correct", one.first.id)}
          aria-label={`${one.retracted ? "Put back" : "Correct"}: ${named}`}
        >
          {one.retracted ? "Put back" : "Correct"}
        </button>
      )}
      {!one.retracted && (
        <button
          type="button"
          onClick={() => write("takeBack", one.first.id)}
          aria-label={`Take back: ${named}`}
        >
          Take back
        </button>
      )}
    </p>
  );
}
