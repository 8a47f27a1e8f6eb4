import { useState } from "react";
import type { PersonStory, StomaStory } from "../../../../record/story/index.ts";
import { newId } from "../../../shared/api/index.ts";
import { CorrectDialog } from "./CorrectDialog.tsx";
import { RecordDialog } from "./RecordDialog.tsx";
import { recordingOf } from "./recordings.ts";
import { TakeBackDialog } from "./TakeBackDialog.tsx";
import { useWriting } from "./useWriting.ts";
import "./writing.css";

/** The dialog that the address names, if any. */
export function WritingDialog({
  story,
  stoma,
  onSaved,
}: {
  story: PersonStory;
  stoma: StomaStory | undefined;
  onSaved: (words: string) => void;
}) {
  const { open, entry, close } = useWriting();
  const [newStomaId] = useState(newId);
  if (!open) return null;
  const saved = (words: string) => {
    close();
    onSaved(words);
  };
  if (open === "correct" || open === "takeBack") {
    const one = story.history.find(({ first }) => first.id === entry);
    if (!one) return null;
    const Asked = open === "correct" ? CorrectDialog : TakeBackDialog;
    return <Asked one={one} story={story} onClose={close} onSaved={saved} />;
  }
  const recording = recordingOf(open, story, stoma, newStomaId);
  if (!recording) return null;
  return <RecordDialog key={recording.draftKey} recording={recording} onClose={close} onSaved={saved} />;
}
