import { useNavigate } from "@tanstack/react-router";
import { useState } from "react";
import { useAppend } from "../../shared/api/index.ts";
import { useDraft } from "../../shared/draft/index.ts";
import { Button, Check, ErrorNote, Form, Opening } from "../../shared/ui/index.ts";
import { ReadOnly, useBench } from "../frame/index.tsx";
import { fittedForm, personForm, stomaForm, WhenFields } from "../kindForms/index.ts";
import { type Admission, admissionEntries, blankAdmission } from "./entries.ts";
import "./admission.css";

/** For those who may write; anybody else who comes to its address is told so. */
export function AddPersonPage() {
  if (!useBench().may.write) return <ReadOnly title="Add a person" />;
  return <Adding />;
}

/** A person, their stoma and the system in use, saved together. */
function Adding() {
  const zone = useBench().clinic.details.timeZone;
  const kept = useDraft<Admission>("admission", () => blankAdmission(zone));
  const append = useAppend();
  const navigate = useNavigate();
  const [tried, setTried] = useState(false);
  const form = kept.value;
  const read = admissionEntries(form, zone);
  const wrong = (tried && read.wrong) || { person: {}, stoma: {}, system: {} as Record<string, string> };
  const put = (part: Partial<Admission>) => kept.set((now) => ({ ...now, ...part }));

  const send = () => {
    setTried(true);
    if (!read.entries) return;
    append.mutate(read.entries, {
      onSuccess: () => {
        kept.forget();
        navigate({ to: "/people/$personId", params: { personId: form.ids.person } });
      },
    });
  };

  return (
    <>
      <Opening title="Add a person" lead="Name and one more identifier; the stoma; what is worn now." />
      <Form label="New person" onSend={send}>
        <Part title="Person">
          <personForm.Fields
            form={form.person}
            put={(part) => put({ person: { ...form.person, ...part } })}
            wrong={wrong.person}
          />
        </Part>
        <Part title="Stoma">
          <stomaForm.Fields
            form={form.stoma}
            put={(part) => put({ stoma: { ...form.stoma, ...part } })}
            wrong={wrong.stoma}
          />
        </Part>
        <Part title="Pouching system">
          <Check
            label="A pouching system is in use"
            checked={form.hasSystem}
            onChange={(hasSystem) => put({ hasSystem })}
          />
          {form.hasSystem && (
            <>
              <fittedForm.Fields
                form={form.system}
                put={(part) => put({ system: { ...form.system, ...part } })}
                wrong={wrong.system}
              />
              <h3 className="admission-since">In use since</h3>
              <WhenFields
                dateOnly
                value={form.systemSince}
                onChange={(systemSince) => put({ systemSince })}
                error={wrong.system.since}
              />
            </>
          )}
        </Part>
        <ErrorNote error={append.error} />
        <p className="formend">
          <Button first type="submit" busy={append.isPending}>
            Add the person
          </Button>
          {kept.touched && <Button onClick={kept.forget}>Start again</Button>}
        </p>
      </Form>
    </>
  );
}

function Part({ title, children }: { title: string; children: React.ReactNode }) {
  return (
    <section className="admission-part">
      <h2>{title}</h2>
      <div>{children}</div>
    </section>
  );
}
