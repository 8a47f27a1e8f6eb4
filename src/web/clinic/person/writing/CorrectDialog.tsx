import { useState } from "react";
import type { Effective } from "../../../../record/effective/index.ts";
import type { PersonStory } from "../../../../record/story/index.ts";
import { draftEntry, useAppend } from "../../../shared/api/index.ts";
import { useDraft } from "../../../shared/draft/index.ts";
import { Button, Dialog, Form, TextField } from "../../../shared/ui/index.ts";
import { kindWords } from "../../../shared/words/index.ts";
import { useBench } from "../../frame/index.tsx";
import {
  atOf,
  type FormKind,
  formOf,
  hasForm,
  WhenFields,
  type WhenForm,
  whenOf,
} from "../../kindForms/index.ts";
import { FailedCorrection } from "./FailedCorrection.tsx";
import { KeptNote } from "./KeptNote.tsx";
import { tipOf } from "./tipOf.ts";

interface CorrectForm {
  fields: Record<string, unknown>;
  when: WhenForm;
  reason: string;
  /** The entry that is corrected: the last word about it when the form was begun. */
  correctsId: string;
}

/** Writes what holds instead, with the reason; the earlier entry stays in the record. */
export function CorrectDialog({
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
  if (!hasForm(one.entry.kind)) return null;
  return <Correcting kind={one.entry.kind} one={one} story={story} onClose={onClose} onSaved={onSaved} />;
}

function Correcting({
  kind,
  one,
  story,
  onClose,
  onSaved,
}: {
  kind: FormKind;
  one: Effective;
  story: PersonStory;
  onClose: () => void;
  onSaved: (words: string) => void;
}) {
  const { clinic } = useBench();
  const zone = clinic.details.timeZone;
  const form = formOf(kind);
  const kept = useDraft<CorrectForm>(`correct:${one.first.id}`, () => ({
    fields: form.fill(one.entry.body as Parameters<typeof form.fill>[0], zone),
    when: whenOf(one.entry.at),
    reason: "",
    correctsId: tipOf(one).id,
  }));
  const [begunEarlier] = useState(kept.touched);
  const [tried, setTried] = useState(false);
  const append = useAppend();
  const { fields, when, reason, correctsId } = kept.value;
  const read = form.read(fields, zone);
  const at = sameWhen(when, whenOf(one.entry.at)) ? one.entry.at : atOf(when, zone);

  const send = () => {
    setTried(true);
    if (!read.body || !at || !reason.trim()) return;
    const entry = draftEntry(kind, read.body, {
      id: kept.id,
      personId: one.entry.personId,
      stomaId: one.entry.stomaId,
      at,
      reportedBy: one.entry.reportedBy,
      corrects: { id: correctsId, as: "replace" },
      reason: reason.trim(),
    });
    append.mutate([entry], {
      onSuccess: () => {
        kept.forget();
        onSaved(`Corrected: ${kindWords[kind].toLowerCase()}.`);
      },
    });
  };

  return (
    <Dialog
      title={`${one.retracted ? "Put back" : "Correct"}: ${kindWords[kind].toLowerCase()}`}
      onClose={onClose}
    >
      <Form onSend={send}>
        {begunEarlier && kept.touched && <KeptNote onForget={kept.forget} />}
        <form.Fields
          form={fields}
          put={(part) => kept.set((now) => ({ ...now, fields: { ...now.fields, ...part } }))}
          wrong={(tried && read.wrong) || {}}
          systems={systemsOf(story, one)}
        />
        <WhenFields
          value={when}
          onChange={(next) => kept.set((now) => ({ ...now, when: next }))}
          error={tried && !at ? "Write the date." : undefined}
        />
        <TextField
          label="Reason"
          rows={2}
          value={reason}
          onChange={(next) => kept.set((now) => ({ ...now, reason: next }))}
          error={tried && !reason.trim() ? "Write why it is corrected." : undefined}
          hint="The first entry stays readable beside it."
        />
        <FailedCorrection
          append={append}
          onTakeOver={(correctsId) => kept.set((now) => ({ ...now, correctsId }))}
        />
        <p className="formend">
          <Button first type="submit" busy={append.isPending}>
            Save the correction
          </Button>
          <Button onClick={onClose}>Not now</Button>
        </p>
      </Form>
    </Dialog>
  );
}

function sameWhen(a: WhenForm, b: WhenForm): boolean {
  return a.date === b.date && a.time === b.time;
}

function systemsOf({ stomas }: PersonStory, { entry }: Effective): string[] {
  const stoma = stomas.find(({ stomaId }) => stomaId === entry.stomaId);
  return stoma?.systems.map((fitted) => fitted.entry.body.system.name) ?? [];
}
