import { type BodyOf, type PhotoPurpose, photoPurposes } from "../../../record/entry/index.ts";
import { Checks, Choice, Field, TextField } from "../../shared/ui/index.ts";
import { photoPurposeWords } from "../../shared/words/index.ts";
import { type FieldsProps, type KindForm, reading } from "./kindForm.ts";

export interface ConsentedForm {
  purposes: PhotoPurpose[];
  given: "yes" | "no";
  how: "spoken" | "written";
  by: "person" | "representative";
  representativeName: string;
  note: string;
}

export const consentedForm: KindForm<"consented", ConsentedForm> = {
  blank: () => ({
    purposes: ["keep"],
    given: "yes",
    how: "spoken",
    by: "person",
    representativeName: "",
    note: "",
  }),
  fill: (body) => ({
    purposes: [...body.purposes],
    given: body.given ? "yes" : "no",
    how: body.how,
    by: body.by,
    representativeName: body.representativeName ?? "",
    note: body.note ?? "",
  }),
  read: (form) => {
    const from = reading();
    if (form.purposes.length === 0) from.refuse("purposes", "Choose what was asked for.");
    const representativeName =
      form.by === "representative"
        ? from.needed("representativeName", form.representativeName, "Write who spoke for the person.")
        : undefined;
    const body: BodyOf<"consented"> = {
      about: "photographs",
      purposes: form.purposes,
      given: form.given === "yes",
      how: form.how,
      by: form.by,
      representativeName,
      note: from.text(form.note),
    };
    return from.done(body);
  },
  Fields: ConsentedFields,
};

function ConsentedFields({ form, put, wrong }: FieldsProps<ConsentedForm>) {
  return (
    <>
      <p className="note">
        Measuring from a photograph that is not kept needs no answer here. Each use beyond that is asked for
        by itself, and can be taken back at any time: pictures that were kept are then deleted.
      </p>
      <Checks
        label="What was asked for"
        chosen={form.purposes}
        onChange={(purposes) => put({ purposes })}
        choices={photoPurposes.map((value) => ({ value, label: photoPurposeWords[value] }))}
        error={wrong.purposes}
      />
      <Choice
        label="The answer"
        value={form.given}
        onChange={(given) => put({ given })}
        choices={[
          { value: "yes", label: "Agreed" },
          { value: "no", label: "Did not agree, or takes it back" },
        ]}
      />
      <Choice
        label="How it was given"
        value={form.how}
        onChange={(how) => put({ how })}
        choices={[
          { value: "spoken", label: "Spoken" },
          { value: "written", label: "Written" },
        ]}
      />
      <Choice
        label="By whom"
        value={form.by}
        onChange={(by) => put({ by })}
        choices={[
          { value: "person", label: "The person" },
          { value: "representative", label: "Somebody who speaks for them" },
        ]}
      />
      {form.by === "representative" && (
        <Field
          label="Who speaks for them"
          value={form.representativeName}
          onChange={(representativeName) => put({ representativeName })}
          error={wrong.representativeName}
        />
      )}
      <TextField label="Note" optional rows={2} value={form.note} onChange={(note) => put({ note })} />
    </>
  );
}
