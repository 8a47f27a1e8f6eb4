import { Link } from "@tanstack/react-router";
import { useState } from "react";
import { useSaveClinic } from "../../shared/api/index.ts";
import { useDraft } from "../../shared/draft/index.ts";
import { Button, ErrorNote, Form, Opening } from "../../shared/ui/index.ts";
import { type Bench, useBench } from "../frame/index.tsx";
import { ClinicDetails } from "./ClinicDetails.tsx";
import { ClinicFields } from "./ClinicFields.tsx";
import { beginClinicForm, type ClinicForm, detailsOf, wrongIn } from "./clinicForm.ts";
import { PrinterPart } from "./PrinterPart.tsx";
import { TakeOut } from "./TakeOut.tsx";
import "./setUp.css";

/** The clinic: what stands on its sheets, who works in it, the printer, and the way to take the record out. */
export function ClinicPage() {
  const { clinic, protocol, counts, may } = useBench();
  return (
    <>
      <Opening title="Clinic" lead="What stands on cutting sheets and beside every entry." />
      <div className="setup">
        {may.lead ? <ClinicDetailsForm clinic={clinic} /> : <ClinicDetails details={clinic.details} />}
        <div className="setup-beside">
          {may.lead && <LeadsParts />}
          <PrinterPart paper={clinic.details.paper} protocol={protocol} />
          {may.lead && <TakeOut counts={counts} />}
        </div>
      </div>
    </>
  );
}

/** What the lead alone looks after. */
function LeadsParts() {
  return (
    <section className="setup-part">
      <h2>Who works here</h2>
      <p>
        <Link to="/clinic/colleagues">Colleagues</Link>: who has an account, and what they may do.
      </p>
      <p>
        <Link to="/clinic/audit">Who saw and changed what</Link>: every look at a person and every change,
        line by line.
      </p>
    </section>
  );
}

function ClinicDetailsForm({ clinic: { details } }: Pick<Bench, "clinic">) {
  const kept = useDraft<ClinicForm>("clinic", () => beginClinicForm(details, details.timeZone));
  const save = useSaveClinic();
  const [tried, setTried] = useState(false);
  const form = kept.value;

  const send = () => {
    setTried(true);
    if (Object.keys(wrongIn(form)).length > 0) return;
    save.mutate(detailsOf(form, details.nurse.id), { onSuccess: kept.forget });
  };

  return (
    <Form label="Clinic details" onSend={send}>
      <ClinicFields
        form={form}
        put={(part) => kept.set((now) => ({ ...now, ...part }))}
        wrong={tried ? wrongIn(form) : {}}
        nurseLabel="Nurse to ask for"
      />
      <ErrorNote error={save.error} />
      <p className="formend">
        <Button first type="submit" busy={save.isPending}>
          Save the details
        </Button>
        {save.isSuccess && !kept.touched && <span role="status">Saved.</span>}
        {kept.touched && <Button onClick={kept.forget}>Undo what I typed</Button>}
      </p>
    </Form>
  );
}
