import { useState } from "react";
import type { Session } from "../../../record/session.ts";
import { ask, useArrive } from "../../shared/api/index.ts";
import { useDraft } from "../../shared/draft/index.ts";
import { Button, ErrorNote, Field, Form, Opening } from "../../shared/ui/index.ts";
import { useAttempt } from "../entry/useAttempt.ts";
import { ClinicFields } from "../setUp/ClinicFields.tsx";
import { beginClinicForm, detailsOf, type Wrong, wrongIn } from "../setUp/clinicForm.ts";
import { LinkPage, SignedInNote } from "./LinkPage.tsx";
import { NewPasswordField, newPasswordWrong } from "./NewPasswordField.tsx";
import { RecoveryKeyPage } from "./RecoveryKeyPage.tsx";
import { signInNameWrong } from "./signInName.ts";
import { dropToken } from "./token.ts";
import "../setUp/setUp.css";

interface SetUpLink {
  /** Of a clinic that is on record already and has nobody to lead it; null where the clinic is new. */
  clinicName: string | null;
  expiresMs: number;
}

/** The first account of a clinic, and with a new clinic its details: everything in one page. */
export function SetUpPage() {
  const [done, setDone] = useState(false);
  if (done) return <RecoveryKeyPage />;
  return (
    <LinkPage<SetUpLink>
      title="Set up the clinic"
      look="/set-up/look"
      renewal={
        <>
          Starting the bench again prints a new link; so does <code>roundel account setup-link</code>.
        </>
      }
    >
      {(link, token) => <SetUp clinicName={link.clinicName} token={token} onDone={() => setDone(true)} />}
    </LinkPage>
  );
}

interface SetUpProps {
  clinicName: string | null;
  token: string;
  onDone: () => void;
}

function SetUp({ clinicName, token, onDone }: SetUpProps) {
  const isNew = clinicName === null;
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const kept = useDraft("set-up", () => ({ ...beginClinicForm(undefined, zone), signInName: "" }));
  // What is kept in the tab is what was typed, never the password.
  const [password, setPassword] = useState("");
  const [tried, setTried] = useState(false);
  const attempt = useAttempt();
  const arrive = useArrive();
  const form = kept.value;
  const put = (part: Partial<typeof form>) => kept.set((now) => ({ ...now, ...part }));
  const nurseName = form.nurseName.trim() ? undefined : "Write your name: every entry says who made it.";
  const wrong: Wrong & { signInName?: string; password?: string } = {
    ...(isNew ? wrongIn(form) : {}),
    nurseName,
    signInName: signInNameWrong(form.signInName),
    password: newPasswordWrong(password, [form.name, form.nurseName, form.signInName, clinicName ?? ""]),
  };
  const shown: typeof wrong = tried ? wrong : {};

  const send = () => {
    setTried(true);
    if (Object.values(wrong).some(Boolean)) return;
    void attempt.run(async () => {
      const account = {
        signInName: form.signInName.trim(),
        displayName: form.nurseName.trim(),
        password,
      };
      const details = isNew ? { details: detailsOf(form, undefined) } : {};
      const session = await ask<Session>("/set-up", { method: "POST", body: { token, ...details, account } });
      kept.forget();
      onDone();
      dropToken();
      await arrive(session);
    });
  };

  return (
    <>
      <Opening
        title={isNew ? "Set up the clinic" : `Lead ${clinicName}`}
        lead={
          isNew
            ? "What stands on every cutting sheet, and the first account: yours, as the lead of the service."
            : "This clinic has nobody to lead it yet. The account you make here does."
        }
      >
        <SignedInNote />
      </Opening>
      <div className="setup">
        <Form label="Set up" onSend={send}>
          {isNew && (
            <section className="links-part">
              <h2>The clinic</h2>
              <ClinicFields form={form} put={put} wrong={shown} nurseLabel="Your name" />
            </section>
          )}
          <section className="links-part">
            <h2>Your account</h2>
            <div className="fields wide">
              {!isNew && (
                <Field
                  label="Your name"
                  autoComplete="name"
                  value={form.nurseName}
                  onChange={(nurseName) => put({ nurseName })}
                  error={shown.nurseName}
                />
              )}
              <Field
                label="Name to sign in with"
                autoComplete="username"
                autoCapitalize="off"
                spellCheck={false}
                value={form.signInName}
                onChange={(signInName) => put({ signInName })}
                error={shown.signInName}
                hint="Short and without secrets, such as your first name."
              />
              <NewPasswordField value={password} onChange={setPassword} error={shown.password} />
            </div>
          </section>
          <ErrorNote error={attempt.error} />
          <p className="formend">
            <Button first type="submit" busy={attempt.busy}>
              Start
            </Button>
          </p>
        </Form>
      </div>
    </>
  );
}
