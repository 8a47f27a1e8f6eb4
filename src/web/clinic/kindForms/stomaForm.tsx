import {
  type BodyOf,
  type Construction,
  constructions,
  type StomaType,
  stomaTypes,
} from "../../../record/entry/index.ts";
import { Choice, Field, Select } from "../../shared/ui/index.ts";
import { constructionWords, stomaTypeWords } from "../../shared/words/index.ts";
import { type FieldsProps, type KindForm, reading } from "./kindForm.ts";

export interface StomaForm {
  type: StomaType | "";
  construction: Construction | "";
  /** How exactly the surgery date is known. */
  known: "" | "day" | "month" | "year" | "unknown";
  day: string;
  month: string;
  year: string;
  side: "" | "right" | "left" | "middle";
  label: string;
}

export const stomaForm: KindForm<"stoma", StomaForm> = {
  blank: () => ({
    type: "",
    construction: "",
    known: "day",
    day: "",
    month: "",
    year: "",
    side: "",
    label: "",
  }),
  fill: ({ type, construction, surgeryOn, side, label }) => ({
    type,
    construction,
    known: surgeryOn?.precision ?? "unknown",
    day: surgeryOn?.precision === "day" ? surgeryOn.date : "",
    month: surgeryOn && surgeryOn.precision !== "year" ? surgeryOn.date.slice(5, 7) : "",
    year: surgeryOn?.date.slice(0, 4) ?? "",
    side: side ?? "",
    label: label ?? "",
  }),
  read: (form) => {
    const from = reading();
    const body: BodyOf<"stoma"> = {
      type: from.chosen("type", form.type, "Choose the type."),
      construction: from.chosen("construction", form.construction, "Choose how it was made."),
      surgeryOn: surgeryOf(form, from),
      side: form.side || undefined,
      label: from.text(form.label),
    };
    return from.done(body);
  },
  Fields: StomaFields,
};

/** An approximate date is kept as the first day it may mean, with its precision. */
function surgeryOf(form: StomaForm, from: ReturnType<typeof reading>): BodyOf<"stoma">["surgeryOn"] {
  if (form.known === "day") {
    const date = from.needed("day", form.day, "Write the date, or choose how exactly it is known.");
    return { date, precision: "day" };
  }
  if (form.known !== "month" && form.known !== "year") return undefined;
  if (!/^\d{4}$/.test(form.year.trim())) from.refuse("year", "Write the year with four figures.");
  if (form.known === "year") return { date: `${form.year.trim()}-01-01`, precision: "year" };
  if (!form.month) from.refuse("month", "Choose the month.");
  return { date: `${form.year.trim()}-${form.month}-01`, precision: "month" };
}

const exactness = [
  { value: "day", label: "To the day" },
  { value: "month", label: "Month" },
  { value: "year", label: "Year" },
  { value: "unknown", label: "Not known" },
] as const;

const sides = [
  { value: "right", label: "Person’s right" },
  { value: "middle", label: "Middle" },
  { value: "left", label: "Person’s left" },
] as const;

const months = Array.from({ length: 12 }, (_, index) => ({
  value: String(index + 1).padStart(2, "0"),
  label: new Date(Date.UTC(2000, index, 1)).toLocaleString("en-GB", { month: "long", timeZone: "UTC" }),
}));

const choose = { value: "", label: "Choose…" } as const;

function StomaFields({ form, put, wrong }: FieldsProps<StomaForm>) {
  return (
    <div className="fields">
      <Select
        label="Type"
        value={form.type}
        onChange={(type) => put({ type })}
        choices={[choose, ...stomaTypes.map((value) => ({ value, label: capital(stomaTypeWords[value]) }))]}
        error={wrong.type}
      />
      <Select
        label="Construction"
        value={form.construction}
        onChange={(construction) => put({ construction })}
        choices={[
          choose,
          ...constructions.map((value) => ({ value, label: capital(constructionWords[value]) })),
        ]}
        error={wrong.construction}
      />
      <div className="whole">
        <Choice
          label="Date of surgery is known"
          value={form.known}
          onChange={(known) => put({ known })}
          choices={exactness}
        />
      </div>
      <SurgeryDate form={form} put={put} wrong={wrong} />
      <div className="whole">
        <Choice label="Side" value={form.side} onChange={(side) => put({ side })} choices={sides} />
      </div>
      <Field
        label="Label"
        optional
        value={form.label}
        onChange={(label) => put({ label })}
        hint="Tells it from another stoma of the same person."
      />
    </div>
  );
}

function SurgeryDate({ form, put, wrong }: FieldsProps<StomaForm>) {
  if (form.known === "day") {
    return (
      <Field
        label="Date of surgery"
        type="date"
        value={form.day}
        onChange={(day) => put({ day })}
        error={wrong.day}
      />
    );
  }
  if (form.known === "unknown" || form.known === "") {
    return (
      <p className="note whole">
        Without a date the first measurement starts the healing clock, and no day of recovery is shown.
      </p>
    );
  }
  return (
    <>
      {form.known === "month" && (
        <Select
          label="Month of surgery"
          value={form.month}
          onChange={(month) => put({ month })}
          choices={[choose, ...months]}
          error={wrong.month}
        />
      )}
      <Field
        label="Year of surgery"
        inputMode="numeric"
        maxLength={4}
        value={form.year}
        onChange={(year) => put({ year })}
        error={wrong.year}
      />
    </>
  );
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
