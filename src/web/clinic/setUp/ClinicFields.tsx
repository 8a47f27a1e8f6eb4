import { Choice, Field, Select } from "../../shared/ui/index.ts";
import type { ClinicForm, Wrong } from "./clinicForm.ts";

const papers = [
  { value: "A4", label: "A4" },
  { value: "Letter", label: "Letter" },
] as const;

/** What stands on cutting sheets. */
export function ClinicFields({
  form,
  put,
  wrong,
  nurseLabel,
}: {
  form: ClinicForm;
  put: (part: Partial<ClinicForm>) => void;
  wrong: Wrong;
  nurseLabel: string;
}) {
  return (
    <div className="fields">
      <div className="whole">
        <Field
          label="Name of the clinic"
          value={form.name}
          onChange={(name) => put({ name })}
          error={wrong.name}
        />
      </div>
      <Field
        label={nurseLabel}
        autoComplete="name"
        value={form.nurseName}
        onChange={(nurseName) => put({ nurseName })}
        error={wrong.nurseName}
      />
      <Select
        label="Time zone"
        value={form.timeZone}
        onChange={(timeZone) => put({ timeZone })}
        choices={zones(form.timeZone)}
      />
      <Field
        label="Number in clinic hours"
        inputMode="tel"
        value={form.nursePhone}
        onChange={(nursePhone) => put({ nursePhone })}
        error={wrong.nursePhone}
      />
      <Field
        label="Number out of hours"
        optional
        inputMode="tel"
        value={form.outOfHoursPhone}
        onChange={(outOfHoursPhone) => put({ outOfHoursPhone })}
      />
      <Field
        label="Emergency number"
        optional
        inputMode="tel"
        value={form.emergencyNumber}
        onChange={(emergencyNumber) => put({ emergencyNumber })}
      />
      <Choice label="Paper" value={form.paper} onChange={(paper) => put({ paper })} choices={papers} />
    </div>
  );
}

function zones(current: string): { value: string; label: string }[] {
  const known = Intl.supportedValuesOf("timeZone");
  const all = known.includes(current) ? known : [current, ...known];
  return all.map((zone) => ({ value: zone, label: zone.replaceAll("_", " ") }));
}
