import { useState } from "react";
import type { Effective } from "../../../../record/effective/index.ts";
import type { PersonStory } from "../../../../record/story/index.ts";
import { draftEntry, useAppend } from "../../../shared/api/index.ts";
import { useDraft } from "../../../shared/draft/index.ts";
import { Button, Dialog, ErrorNote, Form, TextField } from "../../../shared/ui/index.ts";
import { kindWords } from "../../../shared/words/index.ts";
import { useBench } from "../../frame/index.tsx";
import { partsOf } from "../history/parts.ts";
import { FailedCorrection } from "./FailedCorrection.tsx";
import { tipOf } from "./tipOf.ts";

/** Takes an entry back: it stays readable and counts nowhere. */
export function TakeBackDialog({
  one,
  story,
  onClose,
  onSaved,
}: {
  one: Effective;
  story: PersonStory;
  onClose: () => void;
  onSaved: (words: string) => void;
}) {
  const { today } = useBench();
  const kept = useDraft(`takeBack:${one.first.id}`, () => ({ reason: "", correctsId: tipOf(one).id }));
  const append = useAppend();
  const [tried, setTried] = useState(false);
  const { entry } = one;
  const last = isLastDetails(one, story);

  const send = () => {
    setTried(true);
    if (!kept.value.reason.trim()) return;
    const retraction = draftEntry(entry.kind, entry.body, {
      id: kept.id,
      personId: entry.personId,
      stomaId: entry.stomaId,
      at: entry.at,
      corrects: { id: kept.value.correctsId, as: "retract" },
      reason: kept.value.reason.trim(),
    });
    append.mutate([retraction], {
      onSuccess: () => {
        kept.forget();
        onSaved(`Taken back: ${kindWords[entry.kind].toLowerCase()}.`);
      },
    });
  };

  return (
    <Dialog title={`Take back: ${kindWords[entry.kind].toLowerCase()}`} onClose={onClose}>
      <Form onSend={send}>
        <p>
          {partsOf(entry, today)
            .map(({ words }) => words)
            .join(" · ")}
        </p>
        <p className="small">
          It stays readable, struck through, and counts nowhere. You can put it back with a correction.
        </p>
        {last && <ErrorNote>{last}</ErrorNote>}
        <TextField
          label="Reason"
          rows={2}
          value={kept.value.reason}
          onChange={(reason) => kept.set((now) => ({ ...now, reason }))}
          error={tried && !kept.value.reason.trim() ? "Write why it is taken back." : undefined}
        />
        <FailedCorrection
          append={append}
          onTakeOver={(correctsId) => kept.set((now) => ({ ...now, correctsId }))}
        />
        <p className="formend">
          <Button first type="submit" busy={append.isPending}>
            Take it back
          </Button>
          <Button onClick={onClose}>Keep it</Button>
        </p>
      </Form>
    </Dialog>
  );
}

/** Warns where nothing would be left to show the person or the stoma by. */
function isLastDetails({ entry }: Effective, { history }: PersonStory): string | null {
  if (entry.kind !== "person" && entry.kind !== "stoma") return null;
  const others = history.filter(
    (one) => !one.retracted && one.entry.kind === entry.kind && one.entry.stomaId === entry.stomaId,
  );
  if (others.length > 1) return null;
  return entry.kind === "person"
    ? "These are the only details of this person: without them the person is on no list and cannot be opened."
    : "These are the only details of this stoma: without them nothing about it is shown.";
}
