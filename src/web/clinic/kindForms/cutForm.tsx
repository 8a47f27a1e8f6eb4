import type { BodyOf } from "../../../record/entry/index.ts";
import { Choice, NumberField, TextField } from "../../shared/ui/index.ts";
import { type FieldsProps, type KindForm, reading, typed } from "./kindForm.ts";
import { blankShape, fillShape, readShape, ShapeFields, type ShapeForm } from "./shapeForm.tsx";

type Body = BodyOf<"cut">;

export interface CutForm extends ShapeForm {
  clearanceMm: string;
  how: Body["how"];
  note: string;
  measuredId: string | undefined;
}

/** An opening is put into use in the fitting; this form only corrects one. */
export const cutForm: KindForm<"cut", CutForm> = {
  blank: () => ({ ...blankShape, clearanceMm: "", how: "sheet", note: "", measuredId: undefined }),
  fill: ({ opening, clearanceMm, how, note, measuredId }) => ({
    ...fillShape(opening),
    clearanceMm: typed(clearanceMm),
    how,
    note: note ?? "",
    measuredId,
  }),
  read: (form) => {
    const from = reading();
    const body: Body = {
      opening: readShape(form, from),
      clearanceMm: from.number("clearanceMm", form.clearanceMm),
      how: form.how,
      measuredId: form.measuredId,
      note: from.text(form.note),
    };
    return from.done(body);
  },
  Fields: CutFields,
};

const ways = [
  { value: "sheet", label: "From a sheet" },
  { value: "byHand", label: "By hand" },
  { value: "preCut", label: "Pre-cut" },
  { value: "moulded", label: "Moulded" },
] as const;

function CutFields({ form, put, wrong }: FieldsProps<CutForm>) {
  return (
    <>
      <Choice label="How" value={form.how} onChange={(how) => put({ how })} choices={ways} />
      <ShapeFields form={form} put={put} wrong={wrong} />
      <NumberField
        label="Gap each side that was meant"
        optional
        unit="mm"
        value={form.clearanceMm}
        onChange={(clearanceMm) => put({ clearanceMm })}
        error={wrong.clearanceMm}
      />
      <TextField label="Note" optional rows={2} value={form.note} onChange={(note) => put({ note })} />
    </>
  );
}
