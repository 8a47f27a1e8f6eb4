import { type BodyOf, type Closure, closures } from "../../../record/entry/index.ts";
import { Choice, Field, NumberField } from "../../shared/ui/index.ts";
import { closureWords } from "../../shared/words/index.ts";
import { type FieldsProps, type KindForm, reading, typed } from "./kindForm.ts";

export interface FittedForm {
  name: string;
  pieces: "" | "one" | "two";
  closure: Closure | "";
  barrier: "" | "flat" | "convex";
  opening: "" | "cutToFit" | "preCut" | "mouldable";
  preCutMm: string;
  maxOpeningMm: string;
  starterHoleMm: string;
  barrierAcrossMm: string;
  plannedIntervalDays: string;
  note: string;
}

export const fittedForm: KindForm<"fitted", FittedForm> = {
  blank: () => ({
    name: "",
    pieces: "",
    closure: "",
    barrier: "",
    opening: "",
    preCutMm: "",
    maxOpeningMm: "",
    starterHoleMm: "",
    barrierAcrossMm: "",
    plannedIntervalDays: "",
    note: "",
  }),
  fill: ({ system, plannedIntervalDays, note }) => ({
    name: system.name,
    pieces: system.pieces,
    closure: system.closure,
    barrier: system.barrier,
    opening: system.opening,
    preCutMm: typed(system.preCutMm),
    maxOpeningMm: typed(system.maxOpeningMm),
    starterHoleMm: typed(system.starterHoleMm),
    barrierAcrossMm: typed(system.barrierAcrossMm),
    plannedIntervalDays: typed(plannedIntervalDays),
    note: note ?? "",
  }),
  read: (form) => {
    const from = reading();
    const preCut = form.opening === "preCut";
    const body: BodyOf<"fitted"> = {
      system: {
        name: from.needed("name", form.name, "Write what it is called in your stock, such as its own words."),
        pieces: from.chosen("pieces", form.pieces, "Choose one-piece or two-piece."),
        closure: from.chosen("closure", form.closure, "Choose how it is emptied."),
        barrier: from.chosen("barrier", form.barrier, "Choose flat or convex."),
        opening: from.chosen("opening", form.opening, "Choose how its opening is made."),
        preCutMm: preCut ? from.number("preCutMm", form.preCutMm) : undefined,
        maxOpeningMm: preCut ? undefined : from.number("maxOpeningMm", form.maxOpeningMm),
        starterHoleMm: preCut ? undefined : from.number("starterHoleMm", form.starterHoleMm),
        barrierAcrossMm: from.number("barrierAcrossMm", form.barrierAcrossMm),
      },
      plannedIntervalDays: from.number("plannedIntervalDays", form.plannedIntervalDays),
      note: from.text(form.note),
    };
    return from.done(body);
  },
  Fields: FittedFields,
};

const pieces = [
  { value: "one", label: "One-piece" },
  { value: "two", label: "Two-piece" },
] as const;
const barriers = [
  { value: "flat", label: "Flat" },
  { value: "convex", label: "Convex" },
] as const;
const openings = [
  { value: "cutToFit", label: "Cut-to-fit" },
  { value: "preCut", label: "Pre-cut" },
  { value: "mouldable", label: "Mouldable" },
] as const;
const closureChoices = closures.map((value) => ({ value, label: closureWords[value] }));

function FittedFields({ form, put, wrong }: FieldsProps<FittedForm>) {
  return (
    <div className="fields wide">
      <div className="whole">
        <Field
          label="Name"
          autoComplete="off"
          value={form.name}
          onChange={(name) => put({ name })}
          error={wrong.name}
          hint="As your clinic calls it, such as “drainable one-piece, convex, cut-to-fit 10-45 mm”."
        />
      </div>
      <Choice
        label="Pieces"
        value={form.pieces}
        onChange={(value) => put({ pieces: value })}
        choices={pieces}
        error={wrong.pieces}
      />
      <Choice
        label="Closure"
        value={form.closure}
        onChange={(closure) => put({ closure })}
        choices={closureChoices}
        error={wrong.closure}
      />
      <Choice
        label="Barrier"
        value={form.barrier}
        onChange={(barrier) => put({ barrier })}
        choices={barriers}
        error={wrong.barrier}
      />
      <Choice
        label="Opening"
        value={form.opening}
        onChange={(opening) => put({ opening })}
        choices={openings}
        error={wrong.opening}
      />
      <OpeningSizes form={form} put={put} wrong={wrong} />
      <NumberField
        label="Barrier, across"
        optional
        unit="mm"
        value={form.barrierAcrossMm}
        onChange={(barrierAcrossMm) => put({ barrierAcrossMm })}
        error={wrong.barrierAcrossMm}
      />
      <NumberField
        label="Planned change every"
        unit="days"
        value={form.plannedIntervalDays}
        onChange={(plannedIntervalDays) => put({ plannedIntervalDays })}
        error={wrong.plannedIntervalDays}
        hint="Left empty, the protocol’s interval holds."
      />
    </div>
  );
}

function OpeningSizes({ form, put, wrong }: FieldsProps<FittedForm>) {
  if (form.opening === "preCut") {
    return (
      <NumberField
        label="Pre-cut size, across"
        unit="mm"
        value={form.preCutMm}
        onChange={(preCutMm) => put({ preCutMm })}
        error={wrong.preCutMm}
      />
    );
  }
  return (
    <>
      <NumberField
        label="Widest opening"
        optional
        unit="mm"
        value={form.maxOpeningMm}
        onChange={(maxOpeningMm) => put({ maxOpeningMm })}
        error={wrong.maxOpeningMm}
      />
      <NumberField
        label="Starter hole, across"
        optional
        unit="mm"
        value={form.starterHoleMm}
        onChange={(starterHoleMm) => put({ starterHoleMm })}
        error={wrong.starterHoleMm}
      />
    </>
  );
}
