import { useNavigate } from "@tanstack/react-router";
import { useState } from "react";
import type { Session } from "../../../record/session.ts";
import { useSaveClinic, useSession } from "../../shared/api/index.ts";
import { useDraft } from "../../shared/draft/index.ts";
import { Button, Choice, ErrorNote, Field, Form, Loaded, Opening, Select } from "../../shared/ui/index.ts";
import { beginClinicForm, type ClinicForm, detailsOf, wrongIn } from "./clinicForm.ts";
import { PrinterPart } from "./PrinterPart.tsx";
import { TakeOut } from "./TakeOut.tsx";
import "./setUp.css";

/** The clinic: asked for at first use, open to change ever after. */
export function ClinicPage() {
  const session = useSession();
  return (
    <Loaded query={session} what="the clinic">
      {(data) => <Clinic session={data} />}
    </Loaded>
  );
}

function Clinic({ session }: { session: Session }) {
  const isNew = session.clinic === null;
  return (
    <>
      {isNew ? (
        <Opening
          title="Set up the clinic"
          lead="Five things, once. They stand on every cutting sheet and can be changed later."
        />
      ) : (
        <Opening title="Clinic" lead="What stands on cutting sheets and beside every entry." />
      )}
      <div className="setup">
        <ClinicDetailsForm session={session} />
        {!isNew && (
          <div className="setup-beside">
            <PrinterPart paper={session.clinic!.details.paper} protocol={session.protocol} />
            <TakeOut counts={session.counts} />
          </div>
        )}
      </div>
    </>
  );
}

const papers = [
  { value: "A4", label: "A4" },
  { value: "Letter", label: "Letter" },
] as const;

function ClinicDetailsForm({ session }: { session: Session }) {
  const details = session.clinic?.details;
  const browserZone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const kept = useDraft<ClinicForm>("clinic", () => beginClinicForm(details, browserZone));
  const save = useSaveClinic();
  const navigate = useNavigate();
  const [tried, setTried] = useState(false);
  const form = kept.value;
  const wrong = tried ? wrongIn(form) : {};
  const put = (part: Partial<ClinicForm>) => kept.set((now) => ({ ...now, ...part }));

  const send = async () => {
    setTried(true);
    if (Object.keys(wrongIn(form)).length > 0) return;
    // Awaited, not handed a callback: the first save puts another frame round this page.
    const saved = await save.mutateAsync(detailsOf(form, details?.nurse.id)).catch(() => null);
    if (!saved) return;
    kept.forget();
    if (!details) navigate({ to: "/" });
  };

  return (
    <Form label="Clinic details" onSend={send}>
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
          label="Your name"
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
      <ErrorNote error={save.error} />
      <p className="formend">
        <Button first type="submit" busy={save.isPending}>
          {details ? "Save the details" : "Start"}
        </Button>
        {save.isSuccess && !kept.touched && <span role="status">Saved.</span>}
        {kept.touched && details && <Button onClick={kept.forget}>Undo what I typed</Button>}
      </p>
    </Form>
  );
}

function zones(current: string): { value: string; label: string }[] {
  const known = Intl.supportedValuesOf("timeZone");
  const all = known.includes(current) ? known : [current, ...known];
  return all.map((zone) => ({ value: zone, label: zone.replaceAll("_", " ") }));
}
