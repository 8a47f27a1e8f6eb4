import { useState } from "react";
import { FieldFrame, type FieldProps } from "./field.tsx";
import "./password.css";

/** A password, hidden until its writer wants to read it. Whoever keeps passwords for them may fill it in. */
export function PasswordField({
  label,
  error,
  hint,
  value,
  onChange,
  kind,
}: FieldProps & {
  value: string;
  onChange: (text: string) => void;
  /** Tells the browser's keeper of passwords whether to offer one or to make one. */
  kind: "current" | "new";
}) {
  const [shown, setShown] = useState(false);
  return (
    <FieldFrame {...{ label, error, hint }}>
      {(wired) => (
        <span className="password">
          <input
            {...wired}
            type={shown ? "text" : "password"}
            autoComplete={`${kind}-password`}
            autoCapitalize="off"
            spellCheck={false}
            value={value}
            onChange={(event) => onChange(event.target.value)}
          />
          <button
            type="button"
            aria-pressed={shown}
            aria-controls={wired.id}
            onClick={() => setShown(!shown)}
          >
            {shown ? "Hide" : "Show"}
            <span className="hide"> {label.toLowerCase()}</span>
          </button>
        </span>
      )}
    </FieldFrame>
  );
}

/** Whose password a form is about, for whoever keeps passwords: nobody sees it or comes to it. */
export function WhosePassword({ signInName }: { signInName: string }) {
  return (
    <input
      className="hide"
      type="text"
      autoComplete="username"
      tabIndex={-1}
      aria-hidden="true"
      readOnly
      value={signInName}
    />
  );
}
