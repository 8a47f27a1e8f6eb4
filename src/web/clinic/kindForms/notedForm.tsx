import { TextField } from "../../shared/ui/index.ts";
import { type FieldsProps, type KindForm, reading } from "./kindForm.ts";

export interface NotedForm {
  text: string;
}

export const notedForm: KindForm<"noted", NotedForm> = {
  blank: () => ({ text: "" }),
  fill: ({ text }) => ({ text }),
  read: (form) => {
    const from = reading();
    return from.done({ text: from.needed("text", form.text, "Write the note.") });
  },
  Fields: NotedFields,
};

function NotedFields({ form, put, wrong }: FieldsProps<NotedForm>) {
  return (
    <TextField
      label="Note"
      rows={6}
      value={form.text}
      onChange={(text) => put({ text })}
      error={wrong.text}
    />
  );
}
