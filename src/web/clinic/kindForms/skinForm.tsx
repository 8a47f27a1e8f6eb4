import type { Point } from "../../../domain/outline/index.ts";
import { type BodyOf, type RecordedShape, type SkinSign, skinSigns } from "../../../record/entry/index.ts";
import { Button, Checks, NumberField, Select, TextField } from "../../shared/ui/index.ts";
import { skinSignWords } from "../../shared/words/index.ts";
import { SkinMap } from "../skin/index.ts";
import { type FieldsProps, type KindForm, reading } from "./kindForm.ts";

/** One thing seen on the skin, as typed; `drawn` where its edge was drawn instead. */
export interface FindingForm {
  what: SkinSign;
  fromHour: string;
  toHour: string;
  fromMm: string;
  toMm: string;
  drawn: [number, number][] | null;
}

export interface SkinForm {
  findings: FindingForm[];
  feels: ("itch" | "burning" | "pain")[];
  about: RecordedShape | null;
  note: string;
  photoId: string | null;
}

const feelings = [
  { value: "itch", label: "Itch" },
  { value: "burning", label: "Burning" },
  { value: "pain", label: "Pain" },
] as const;

export const skinForm: KindForm<"skin", SkinForm> = {
  blank: () => ({ findings: [], feels: [], about: null, note: "", photoId: null }),
  fill: (body) => ({
    findings: body.findings.map(typedFinding),
    feels: [...(body.feels ?? [])],
    about: body.about ?? null,
    note: body.note ?? "",
    photoId: body.photoId ?? null,
  }),
  read: (form) => {
    const from = reading();
    const findings = form.findings.map((finding, at) => readFinding(finding, at, from));
    if (findings.length > 0 && !form.about) {
      from.refuse("findings", "Measure the stoma first: places lie about its base.");
    }
    const body: BodyOf<"skin"> = {
      findings,
      feels: form.feels.length > 0 ? form.feels : undefined,
      about: findings.length > 0 ? (form.about ?? undefined) : undefined,
      photoId: form.photoId ?? undefined,
      note: from.text(form.note),
    };
    return from.done(body);
  },
  Fields: SkinFields,
};

type Finding = BodyOf<"skin">["findings"][number];

function typedFinding({ what, place }: Finding): FindingForm {
  if ("outline" in place) return { ...newFinding, what, drawn: place.outline };
  const { hours, reachMm } = place;
  return {
    what,
    fromHour: String(hours.from),
    toHour: String(hours.to),
    fromMm: String(reachMm.from),
    toMm: String(reachMm.to),
    drawn: null,
  };
}

const newFinding: FindingForm = {
  what: "redderOrDarker",
  fromHour: "5",
  toHour: "7",
  fromMm: "0",
  toMm: "10",
  drawn: null,
};

function readFinding(finding: FindingForm, at: number, from: ReturnType<typeof reading>): Finding {
  const { what, drawn } = finding;
  if (drawn) return { what, place: { outline: drawn } };
  const reachMm = {
    from: from.neededNumber(`findings.${at}.fromMm`, finding.fromMm),
    to: from.neededNumber(`findings.${at}.toMm`, finding.toMm),
  };
  if (!(reachMm.from >= 0) || reachMm.from >= reachMm.to) {
    from.refuse(`findings.${at}.toMm`, "It ends further out than it begins.");
  }
  return { what, place: { hours: { from: Number(finding.fromHour), to: Number(finding.toHour) }, reachMm } };
}

/** What the map shows of fields that can be read already. */
export function placesOf(findings: readonly FindingForm[]): Finding[] {
  return findings.flatMap((finding, at) => {
    const from = reading();
    const read = readFinding(finding, at, from);
    return from.done(read).body ? [read] : [];
  });
}

const hours = Array.from({ length: 12 }, (_, at) => String(at + 1)).map((value) => ({
  value,
  label: `${value} o’clock`,
}));
const signs = skinSigns.map((value) => ({ value, label: skinSignWords[value] }));

function SkinFields({ form, put, wrong }: FieldsProps<SkinForm>) {
  const change = (at: number, part: Partial<FindingForm>) =>
    put({ findings: form.findings.map((one, index) => (index === at ? { ...one, ...part } : one)) });
  const add = (more: Partial<FindingForm> = {}) =>
    put({ findings: [...form.findings, { ...newFinding, ...more }] });
  return (
    <>
      {form.about ? (
        <SkinMap
          about={form.about}
          findings={placesOf(form.findings)}
          onDrawn={(outline: Point[]) => add({ drawn: outline.map(([x, y]): [number, number] => [x, y]) })}
        />
      ) : (
        <p className="note">Measure the stoma first: what is seen is placed about its base.</p>
      )}
      {wrong.findings && <p className="wrong">{wrong.findings}</p>}
      {form.findings.map((finding, at) => (
        <fieldset
          // biome-ignore lint/suspicious/noArrayIndexKey: findings have no names, and none is moved
          key={at}
          className="skin-finding"
        >
          <legend>Finding {at + 1}</legend>
          <Select
            label="What is seen"
            value={finding.what}
            onChange={(what) => change(at, { what: what as SkinSign })}
            choices={signs}
          />
          {finding.drawn ? (
            <p className="note">Its edge was drawn on the map.</p>
          ) : (
            <div className="fields">
              <Select
                label="From, clockwise"
                value={finding.fromHour}
                onChange={(fromHour) => change(at, { fromHour })}
                choices={hours}
              />
              <Select
                label="To"
                value={finding.toHour}
                onChange={(toHour) => change(at, { toHour })}
                choices={hours}
              />
              <NumberField
                label="Begins, from the stoma"
                unit="mm"
                value={finding.fromMm}
                onChange={(fromMm) => change(at, { fromMm })}
                error={wrong[`findings.${at}.fromMm`]}
              />
              <NumberField
                label="Ends"
                unit="mm"
                value={finding.toMm}
                onChange={(toMm) => change(at, { toMm })}
                error={wrong[`findings.${at}.toMm`]}
              />
            </div>
          )}
          <p>
            <Button onClick={() => put({ findings: form.findings.filter((_, index) => index !== at) })}>
              Leave this finding out
            </Button>
          </p>
        </fieldset>
      ))}
      <p>
        <Button onClick={() => add()}>
          {form.findings.length === 0 ? "Add a finding" : "Add another finding"}
        </Button>
      </p>
      {form.findings.length === 0 && <p className="note">Without a finding: looked, and nothing found.</p>}
      <Checks
        label="What the person feels"
        chosen={form.feels}
        onChange={(feels) => put({ feels })}
        choices={feelings}
      />
      <TextField label="Note" optional rows={2} value={form.note} onChange={(note) => put({ note })} />
    </>
  );
}
