import type { Kind } from "../../../record/entry/index.ts";
import { changedForm } from "./changedForm.tsx";
import { consentedForm } from "./consentedForm.tsx";
import { cutForm } from "./cutForm.tsx";
import { eventForm } from "./eventForm.tsx";
import { fittedForm } from "./fittedForm.tsx";
import type { KindForm } from "./kindForm.ts";
import { measuredForm } from "./measuredForm.tsx";
import { notedForm } from "./notedForm.tsx";
import { personForm } from "./personForm.tsx";
import { skinForm } from "./skinForm.tsx";
import { stomaForm } from "./stomaForm.tsx";

/** The kinds that can be written or corrected in a form. */
export type FormKind = Exclude<Kind, "clinic" | "protocolSet" | "advised" | "sited">;

const forms = {
  person: personForm,
  stoma: stomaForm,
  measured: measuredForm,
  cut: cutForm,
  fitted: fittedForm,
  changed: changedForm,
  event: eventForm,
  noted: notedForm,
  skin: skinForm,
  consented: consentedForm,
} satisfies Record<FormKind, object>;

/** The form of a kind, where only the kind is known: its fields are a record of texts to its caller. */
export function formOf(kind: FormKind): KindForm<FormKind, Record<string, unknown>> {
  return forms[kind] as unknown as KindForm<FormKind, Record<string, unknown>>;
}

export function hasForm(kind: Kind): kind is FormKind {
  return kind in forms;
}
