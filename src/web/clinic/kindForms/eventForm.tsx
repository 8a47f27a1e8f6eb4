import { type BodyOf, type Happening, happenings } from "../../../record/entry/index.ts";
import { Select, TextField } from "../../shared/ui/index.ts";
import { happeningWords } from "../../shared/words/index.ts";
import { type FieldsProps, type KindForm, reading } from "./kindForm.ts";

export interface EventForm {
  what: Happening | "";
  note: string;
}

export const eventForm: KindForm<"event", EventForm> = {
  blank: () => ({ what: "", note: "" }),
  fill: ({ what, note }) => ({ what, note: note ?? "" }),
  read: (form) => {
    const from = reading();
    const body: BodyOf<"event"> = {
      what: from.chosen("what", form.what, "Choose what happened."),
      note: from.text(form.note),
    };
    return from.done(body);
  },
  Fields: EventFields,
};

/** What the lists do after it, where they do anything. */
const effects: Partial<Record<Happening, string>> = {
  died: "The person leaves every list at once. The record stays.",
  movedAway: "The person leaves every list. The record stays.",
  reversed: "This stoma leaves every list. The record stays.",
  admitted: "The lists pause until discharge is recorded.",
  discharged: "The lists ask again.",
};

function EventFields({ form, put, wrong }: FieldsProps<EventForm>) {
  return (
    <>
      <Select
        label="What happened"
        value={form.what}
        onChange={(what) => put({ what })}
        choices={[
          { value: "", label: "Choose…" },
          ...happenings.map((value) => ({ value, label: happeningWords[value] })),
        ]}
        error={wrong.what}
        hint={form.what ? effects[form.what] : undefined}
      />
      <TextField label="Note" optional rows={2} value={form.note} onChange={(note) => put({ note })} />
    </>
  );
}
