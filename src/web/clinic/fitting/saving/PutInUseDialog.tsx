import { useState } from "react";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { At, PouchingSystem } from "../../../../record/entry/index.ts";
import { draftEntry, nowIn, useAppend } from "../../../shared/api/index.ts";
import { useDraft } from "../../../shared/draft/index.ts";
import { Button, Choice, Dialog, ErrorNote, Form, NumberField, TextField } from "../../../shared/ui/index.ts";
import { mm, readDecimal } from "../../../shared/words/index.ts";
import { atOf, WhenFields, type WhenForm, whenNow } from "../../kindForms/index.ts";
import { rangeMm } from "../figures/index.ts";
import { type CutFrom, type CutHow, cutShape } from "./cutShape.ts";

const hows = [
  { value: "sheet", label: "From a sheet" },
  { value: "byHand", label: "By hand" },
  { value: "preCut", label: "Pre-cut" },
  { value: "moulded", label: "Moulded" },
] as const;

/** Sizes a pre-cut opening may have. */
const preCutRangeMm = { least: 5, most: 120 } as const;

interface CutForm {
  how: CutHow;
  /** Null: at the moment of saving. */
  when: WhenForm | null;
  preCutMm: string;
  note: string;
  /** The moment of the first try, so that a retry is the same entry. */
  triedAt: At | null;
}

export interface PutInUseProps {
  personId: string;
  stomaId: string;
  zone: string;
  cut: CutFrom & { holeAcrossMm: { min: number; max: number } };
  system: PouchingSystem | null;
  protocol: Protocol;
  unsaved: boolean;
  readingId: () => Promise<string>;
  onDone: () => void;
  onClose: () => void;
}

/** How and when the opening came into use; from then on the lists judge it. */
export function PutInUseDialog(props: PutInUseProps) {
  const { personId, stomaId, zone, cut, system, protocol, unsaved, readingId, onDone, onClose } = props;
  const kept = useDraft<CutForm>(`fitting.cut:${stomaId}`, () => ({
    how: "sheet",
    when: null,
    preCutMm: system?.preCutMm ? String(system.preCutMm) : "",
    note: "",
    triedAt: null,
  }));
  const [tried, setTried] = useState(false);
  const [saving, setSaving] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const append = useAppend();
  const form = kept.value;
  const put = (part: Partial<CutForm>) => kept.set((now) => ({ ...now, ...part }));

  const preCut = readDecimal(form.preCutMm);
  const preCutWrong =
    form.how === "preCut" && (preCut === null || preCut < preCutRangeMm.least || preCut > preCutRangeMm.most)
      ? `Write its size across, ${preCutRangeMm.least} to ${preCutRangeMm.most} mm.`
      : undefined;
  const at = form.when ? atOf(form.when, zone) : (form.triedAt ?? nowIn(zone));

  const save = async () => {
    setTried(true);
    if (preCutWrong || at === null) return;
    setSaving(true);
    setError(null);
    try {
      put({ triedAt: form.when ? null : at });
      const measuredId = await readingId();
      const body = {
        ...cutShape(form.how, cut, preCut ?? 0, protocol),
        how: form.how,
        measuredId,
        note: form.note.trim() || undefined,
      };
      await append.mutateAsync([draftEntry("cut", body, { id: kept.id, personId, stomaId, at })]);
      kept.forget();
      onDone();
    } catch (problem) {
      setError(problem);
      setSaving(false);
    }
  };

  return (
    <Dialog title="Put this opening in use" onClose={onClose}>
      <Form label="Put this opening in use" onSend={save}>
        {unsaved && <p>The reading is saved first, as it stands on the page.</p>}
        <Choice label="How was it made?" value={form.how} onChange={(how) => put({ how })} choices={hows} />
        {form.how === "preCut" ? (
          <NumberField
            label="Hole across"
            unit="mm"
            value={form.preCutMm}
            onChange={(preCutMm) => put({ preCutMm })}
            error={tried ? preCutWrong : undefined}
          />
        ) : (
          <p>{openingWords(form.how, cut)}</p>
        )}
        <Choice
          label="In use"
          value={form.when ? "earlier" : "now"}
          onChange={(time) => put({ when: time === "now" ? null : whenNow(zone) })}
          choices={[
            { value: "now", label: "From now on" },
            { value: "earlier", label: "Since earlier" },
          ]}
        />
        {form.when && (
          <WhenFields
            value={form.when}
            onChange={(when) => put({ when })}
            error={tried && at === null ? "Give the date." : undefined}
          />
        )}
        <TextField label="Note" optional rows={1} value={form.note} onChange={(note) => put({ note })} />
        <ErrorNote error={error} />
        <p className="formend">
          <Button first type="submit" busy={saving}>
            Put in use
          </Button>
          <Button onClick={onClose}>Not now</Button>
        </p>
      </Form>
    </Dialog>
  );
}

function openingWords(how: CutHow, { clearanceMm, holeAcrossMm }: PutInUseProps["cut"]): string {
  if (how === "moulded") return "Moulded to the edge of the stoma: kept with a gap of 0 mm.";
  return `Gap each side ${mm(clearanceMm)}, hole across ${rangeMm(holeAcrossMm)}.`;
}
