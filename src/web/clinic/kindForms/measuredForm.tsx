import { type BodyOf, postures } from "../../../record/entry/index.ts";
import { Choice, NumberField, Select, TextField } from "../../shared/ui/index.ts";
import { type FieldsProps, type KindForm, reading, typed } from "./kindForm.ts";
import { blankShape, fillShape, readShape, ShapeFields, type ShapeForm } from "./shapeForm.tsx";

type Body = BodyOf<"measured">;

export interface MeasuredForm extends ShapeForm {
  method: Body["method"];
  stepMm: string;
  heightMm: string;
  posture: NonNullable<Body["posture"]> | "";
  note: string;
  /** What is kept as it was: how a tracing was placed or a photograph scaled, and the stated uncertainty. */
  kept: Pick<Body, "source" | "sdMm" | "photo">;
}

/** A measurement is taken in the fitting; this form only corrects one. */
export const measuredForm: KindForm<"measured", MeasuredForm> = {
  blank: () => ({
    ...blankShape,
    method: "guide",
    stepMm: "",
    heightMm: "",
    posture: "",
    note: "",
    kept: {},
  }),
  fill: ({ method, shape, stepMm, heightMm, posture, note, source, sdMm, photo }) => ({
    ...fillShape(shape),
    method,
    stepMm: typed(stepMm),
    heightMm: typed(heightMm),
    posture: posture ?? "",
    note: note ?? "",
    kept: { source, sdMm, photo },
  }),
  read: (form) => {
    const from = reading();
    const body: Body = {
      method: form.method,
      shape: readShape(form, from),
      stepMm: form.method === "guide" ? from.number("stepMm", form.stepMm) : undefined,
      heightMm: from.number("heightMm", form.heightMm),
      posture: form.posture || undefined,
      note: from.text(form.note),
      source: form.kept.source,
      sdMm: form.kept.sdMm,
      photo: form.method === "photo" ? form.kept.photo : undefined,
    };
    return from.done(body);
  },
  Fields: MeasuredFields,
};

const methods = [
  { value: "guide", label: "Guide" },
  { value: "tracing", label: "Tracing" },
  { value: "typed", label: "Typed" },
] as const;
/** Offered where it was one: nothing becomes a photograph afterwards. */
const photograph = { value: "photo", label: "Photograph" } as const;

function MeasuredFields({ form, put, wrong }: FieldsProps<MeasuredForm>) {
  return (
    <>
      <Choice
        label="How"
        value={form.method}
        onChange={(method) => put({ method })}
        choices={form.kept.photo ? [...methods, photograph] : methods}
      />
      <ShapeFields form={form} put={put} wrong={wrong} />
      <div className="fields">
        {form.method === "guide" && (
          <NumberField
            label="Step of the guide"
            unit="mm"
            value={form.stepMm}
            onChange={(stepMm) => put({ stepMm })}
            error={wrong.stepMm}
          />
        )}
        <NumberField
          label="Height, lowest side"
          optional
          unit="mm"
          value={form.heightMm}
          onChange={(heightMm) => put({ heightMm })}
          error={wrong.heightMm}
        />
        <Select
          label="Posture"
          value={form.posture}
          onChange={(posture) => put({ posture })}
          choices={[
            { value: "", label: "Not noted" },
            ...postures.map((value) => ({ value, label: value.charAt(0).toUpperCase() + value.slice(1) })),
          ]}
        />
      </div>
      <TextField label="Note" optional rows={2} value={form.note} onChange={(note) => put({ note })} />
    </>
  );
}
