import { useState } from "react";
import { type At, type BodyOf, dateOf } from "../../../../record/entry/index.ts";
import { draftEntry, nowIn, useAppend } from "../../../shared/api/index.ts";
import { useDraft } from "../../../shared/draft/index.ts";
import { Button, Dialog, ErrorNote, Field, Form } from "../../../shared/ui/index.ts";
import { useBench } from "../../frame/index.tsx";
import { atOf, type FormKind, formOf, WhenFields, type WhenForm, whenNow } from "../../kindForms/index.ts";
import { KeptNote } from "./KeptNote.tsx";

/** What is to be written and about whom. */
export interface Recording {
  kind: FormKind;
  title: string;
  send: string;
  personId: string;
  stomaId: string | null;
  /** Begins with these fields instead of empty ones: details that are changed, not told anew. */
  from?: BodyOf<FormKind>;
  /** Whether it may have happened earlier than now. */
  asksWhen: boolean;
  asksWhoTold?: boolean;
  /** Tells drafts apart: two stomas may have a change in writing at once. */
  draftKey: string;
  systems?: readonly string[];
}

interface RecordForm {
  fields: Record<string, unknown>;
  when: WhenForm;
  reportedBy: string;
}

/** Writes one new entry. What was typed stays through a failed save, leaving and loading again. */
export function RecordDialog({
  recording,
  onClose,
  onSaved,
}: {
  recording: Recording;
  onClose: () => void;
  onSaved: (words: string) => void;
}) {
  const { clinic } = useBench();
  const zone = clinic.details.timeZone;
  const { kind, personId, stomaId, asksWhen } = recording;
  const form = formOf(kind);
  const kept = useDraft<RecordForm>(recording.draftKey, () => ({
    fields: recording.from ? form.fill(recording.from, zone) : form.blank(),
    when: whenNow(zone),
    reportedBy: "",
  }));
  const [begunEarlier] = useState(kept.touched);
  const [tried, setTried] = useState(false);
  const append = useAppend();
  const { fields, when, reportedBy } = kept.value;
  const read = form.read(fields, zone);
  const at = asksWhen ? atOf(when, zone) : nowIn(zone);

  const send = () => {
    setTried(true);
    if (!read.body || !at) return;
    const about = { id: kept.id, personId, stomaId, at, reportedBy: reportedBy.trim() || undefined };
    append.mutate([draftEntry(kind, read.body, about)], {
      onSuccess: () => {
        kept.forget();
        onSaved(savedWords(recording.title, at));
      },
    });
  };

  return (
    <Dialog title={recording.title} onClose={onClose}>
      <Form onSend={send}>
        {begunEarlier && kept.touched && <KeptNote onForget={kept.forget} />}
        <form.Fields
          form={fields}
          put={(part) => kept.set((now) => ({ ...now, fields: { ...now.fields, ...part } }))}
          wrong={(tried && read.wrong) || {}}
          systems={recording.systems}
        />
        {asksWhen && (
          <WhenFields
            value={when}
            onChange={(next) => kept.set((now) => ({ ...now, when: next }))}
            error={tried && !at ? "Write the date." : undefined}
          />
        )}
        {recording.asksWhoTold && (
          <Field
            label="Told by"
            optional
            value={reportedBy}
            onChange={(next) => kept.set((now) => ({ ...now, reportedBy: next }))}
            hint="If you did not see it yourself: the person, a helper, a colleague."
          />
        )}
        <ErrorNote error={append.error} />
        <p className="formend">
          <Button first type="submit" busy={append.isPending}>
            {recording.send}
          </Button>
          <Button onClick={onClose}>Not now</Button>
        </p>
      </Form>
    </Dialog>
  );
}

function savedWords(title: string, at: At): string {
  return `Saved: ${title.charAt(0).toLowerCase()}${title.slice(1)}, ${dateOf(at)}.`;
}
