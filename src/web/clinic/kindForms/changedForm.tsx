import {
  type BodyOf,
  type ChangedPart,
  type ChangeReason,
  changedParts,
  changeReasons,
} from "../../../record/entry/index.ts";
import { Choice, Field, FieldFrame, TextField } from "../../shared/ui/index.ts";
import { changedPartWords, changeReasonWords, dayIn, timeOfDay } from "../../shared/words/index.ts";
import { ClockFace } from "./ClockFace.tsx";
import { type FieldsProps, type KindForm, reading } from "./kindForm.ts";
import { instantOf } from "./when.tsx";

export interface ChangedForm {
  what: ChangedPart;
  why: ChangeReason;
  systemName: string;
  leakHours: number[];
  soundDate: string;
  soundTime: string;
  note: string;
}

export const changedForm: KindForm<"changed", ChangedForm> = {
  blank: () => ({
    what: "barrier",
    why: "planned",
    systemName: "",
    leakHours: [],
    soundDate: "",
    soundTime: "",
    note: "",
  }),
  fill: (body, zone) => ({
    what: body.what,
    why: body.why,
    systemName: body.systemName ?? "",
    leakHours: body.leakHours ?? [],
    soundDate: body.lastSoundAt ? dayIn(zone, body.lastSoundAt) : "",
    soundTime: body.lastSoundAt ? timeOfDay(body.lastSoundAt, zone) : "",
    note: body.note ?? "",
  }),
  read,
  Fields: ChangedFields,
};

function read(form: ChangedForm, zone: string) {
  const from = reading();
  const trouble = form.why !== "planned";
  const halfSound = (form.soundDate === "") !== (form.soundTime === "");
  if (trouble && halfSound) {
    from.refuse("lastSoundAt", "Write both the date and the time, or neither.");
  }
  const sound = trouble && form.soundDate !== "" && form.soundTime !== "";
  const body: BodyOf<"changed"> = {
    what: form.what,
    why: form.why,
    systemName: from.text(form.systemName),
    leakHours: trouble && form.leakHours.length > 0 ? [...form.leakHours].sort((a, b) => a - b) : undefined,
    lastSoundAt: sound ? instantOf({ date: form.soundDate, time: form.soundTime }, zone) : undefined,
    note: from.text(form.note),
  };
  return from.done(body);
}

const parts = changedParts.map((value) => ({ value, label: changedPartWords[value] }));
const reasons = changeReasons.map((value) => ({ value, label: changeReasonWords[value] }));

function ChangedFields({ form, put, wrong, systems = [] }: FieldsProps<ChangedForm>) {
  return (
    <>
      <Choice label="What was changed" value={form.what} onChange={(what) => put({ what })} choices={parts} />
      <Choice label="Why" value={form.why} onChange={(why) => put({ why })} choices={reasons} />
      {form.why !== "planned" && <Trouble form={form} put={put} wrong={wrong} />}
      <SystemPutOn form={form} put={put} systems={systems} />
      <TextField label="Note" optional rows={2} value={form.note} onChange={(note) => put({ note })} />
    </>
  );
}

function Trouble({ form, put, wrong }: FieldsProps<ChangedForm>) {
  return (
    <div className="trouble">
      <ClockFace
        label="Where, by clock hour"
        chosen={form.leakHours}
        onChange={(leakHours) => put({ leakHours })}
      />
      <div>
        <p className="small">
          When was the seal last seen sound? It narrows down when it failed; leave it empty if nobody looked.
        </p>
        <div className="fields">
          <Field
            label="Last seen sound, date"
            optional
            type="date"
            value={form.soundDate}
            onChange={(soundDate) => put({ soundDate })}
            error={wrong.lastSoundAt}
          />
          <Field
            label="Time"
            optional
            type="time"
            value={form.soundTime}
            onChange={(soundTime) => put({ soundTime })}
          />
        </div>
      </div>
    </div>
  );
}

function SystemPutOn({
  form,
  put,
  systems,
}: Omit<FieldsProps<ChangedForm>, "wrong"> & { systems: readonly string[] }) {
  const names = [...new Set([...systems, ...(form.systemName ? [form.systemName] : [])])];
  if (names.length < 2) return null;
  return (
    <FieldFrame label="System put on">
      {(wired) => (
        <select
          {...wired}
          value={form.systemName}
          onChange={(event) => put({ systemName: event.target.value })}
        >
          <option value="">The one in use then</option>
          {names.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      )}
    </FieldFrame>
  );
}
