import type { BodyOf } from "../../../record/entry/index.ts";
import { Check, Choice, Field, Select } from "../../shared/ui/index.ts";
import { type FieldsProps, type KindForm, reading } from "./kindForm.ts";

export interface PersonForm {
  name: string;
  birthDate: string;
  identifier: string;
  phone: string;
  language: string;
  interpreter: boolean;
  sight: string;
  dexterity: string;
  caredForBy: "" | "self" | "helper" | "nurse";
  helperName: string;
  homeOn: string;
}

export const personForm: KindForm<"person", PersonForm> = {
  blank: () => ({
    name: "",
    birthDate: "",
    identifier: "",
    phone: "",
    language: "",
    interpreter: false,
    sight: "",
    dexterity: "",
    caredForBy: "",
    helperName: "",
    homeOn: "",
  }),
  fill: (body) => ({
    name: body.name,
    birthDate: body.birthDate ?? "",
    identifier: body.identifier ?? "",
    phone: body.phone ?? "",
    language: body.language ?? "",
    interpreter: body.interpreter ?? false,
    sight: body.sight ?? "",
    dexterity: body.dexterity ?? "",
    caredForBy: body.caredForBy ?? "",
    helperName: body.helperName ?? "",
    homeOn: body.homeOn ?? "",
  }),
  read: (form) => {
    const from = reading();
    const name = from.needed("name", form.name, "Write the name.");
    const birthDate = from.text(form.birthDate);
    const identifier = from.text(form.identifier);
    if (!birthDate && !identifier) {
      from.refuse("birthDate", "Write the birth date or a record number: sheets carry two identifiers.");
    }
    const body: BodyOf<"person"> = {
      name,
      birthDate,
      identifier,
      phone: from.text(form.phone),
      language: from.text(form.language),
      interpreter: form.interpreter || undefined,
      sight: from.text(form.sight),
      dexterity: from.text(form.dexterity),
      caredForBy: form.caredForBy || undefined,
      helperName: from.text(form.helperName),
      homeOn: from.text(form.homeOn),
    };
    return from.done(body);
  },
  Fields: PersonFields,
};

const carers = [
  { value: "self", label: "The person" },
  { value: "helper", label: "A helper" },
  { value: "nurse", label: "A nurse" },
] as const;

function PersonFields({ form, put, wrong }: FieldsProps<PersonForm>) {
  return (
    <div className="fields">
      <div className="whole">
        <Field
          label="Name"
          autoComplete="off"
          value={form.name}
          onChange={(name) => put({ name })}
          error={wrong.name}
        />
      </div>
      <Field
        label="Birth date"
        type="date"
        value={form.birthDate}
        onChange={(birthDate) => put({ birthDate })}
        error={wrong.birthDate}
        hint="This or the record number is needed."
      />
      <Field
        label="Record number"
        autoComplete="off"
        value={form.identifier}
        onChange={(identifier) => put({ identifier })}
        error={wrong.identifier}
      />
      <Field
        label="Telephone"
        optional
        inputMode="tel"
        autoComplete="off"
        value={form.phone}
        onChange={(phone) => put({ phone })}
      />
      <Field
        label="Language"
        optional
        autoComplete="off"
        value={form.language}
        onChange={(language) => put({ language })}
      />
      <div className="whole">
        <Check
          label="Needs an interpreter"
          checked={form.interpreter}
          onChange={(interpreter) => put({ interpreter })}
        />
      </div>
      <div className="whole">
        <Choice
          label="Who changes the pouch"
          value={form.caredForBy}
          onChange={(caredForBy) => put({ caredForBy })}
          choices={carers}
        />
      </div>
      <Field
        label="Helper’s name"
        optional
        autoComplete="off"
        value={form.helperName}
        onChange={(helperName) => put({ helperName })}
      />
      <Field
        label="Home since"
        optional
        type="date"
        value={form.homeOn}
        onChange={(homeOn) => put({ homeOn })}
      />
      <Field label="Sight" optional value={form.sight} onChange={(sight) => put({ sight })} />
      <Select
        label="Hands"
        optional
        value={form.dexterity}
        onChange={(dexterity) => put({ dexterity })}
        choices={handChoices(form.dexterity)}
      />
    </div>
  );
}

const hands = ["", "no trouble with scissors", "cuts with difficulty", "cannot cut"];

function handChoices(current: string): { value: string; label: string }[] {
  const all = hands.includes(current) ? hands : [...hands, current];
  return all.map((value) => ({ value, label: value || "not known" }));
}
