import { type InputHTMLAttributes, type ReactNode, useId } from "react";
import "./field.css";

export interface FieldProps {
  label: string;
  /** What is wrong, as a sentence. */
  error?: string;
  /** What to know before typing. */
  hint?: ReactNode;
  optional?: boolean;
}

type Wired = { id: string; "aria-invalid": true | undefined; "aria-describedby": string | undefined };

/** Label above, the control, hint and error under it, tied together for screen readers. */
export function FieldFrame({
  label,
  error,
  hint,
  optional,
  children,
}: FieldProps & { children: (wired: Wired) => ReactNode }) {
  const id = useId();
  const described = [hint ? `${id}-hint` : "", error ? `${id}-error` : ""].filter(Boolean).join(" ");
  return (
    <div className="field">
      <label htmlFor={id}>
        {label}
        {optional && <span className="optional"> (optional)</span>}
      </label>
      {children({ id, "aria-invalid": error ? true : undefined, "aria-describedby": described || undefined })}
      {hint && (
        <p className="note" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {error && (
        <p className="wrong" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}

type Native = Omit<InputHTMLAttributes<HTMLInputElement>, "value" | "onChange" | "children">;

/** One line of text. */
export function Field({
  label,
  error,
  hint,
  optional,
  value,
  onChange,
  ...input
}: FieldProps & Native & { value: string; onChange: (text: string) => void }) {
  return (
    <FieldFrame {...{ label, error, hint, optional }}>
      {(wired) => (
        <input {...input} {...wired} value={value} onChange={(event) => onChange(event.target.value)} />
      )}
    </FieldFrame>
  );
}

/** Several lines of text; it grows with what is typed. */
export function TextField({
  label,
  error,
  hint,
  optional,
  value,
  onChange,
  rows = 4,
}: FieldProps & { value: string; onChange: (text: string) => void; rows?: number }) {
  return (
    <FieldFrame {...{ label, error, hint, optional }}>
      {(wired) => (
        <textarea {...wired} rows={rows} value={value} onChange={(event) => onChange(event.target.value)} />
      )}
    </FieldFrame>
  );
}

/**
 * A figure with its unit. It keeps what was typed, with a decimal comma or point; `readDecimal` makes a number
 * of it. What cannot be read as a number says so as soon as the field is left, by the caller's `error`.
 */
export function NumberField({
  label,
  error,
  hint,
  optional,
  unit,
  value,
  onChange,
  ...input
}: FieldProps & Native & { unit: string; value: string; onChange: (text: string) => void }) {
  return (
    <FieldFrame label={label} error={error} hint={hint} optional={optional}>
      {(wired) => (
        <span className="unit">
          <input
            {...input}
            {...wired}
            inputMode="decimal"
            autoComplete="off"
            value={value}
            onChange={(event) => onChange(event.target.value)}
          />
          <span aria-hidden="true">{unit}</span>
          <span className="hide" id={`${wired.id}-unit`}>
            {unit}
          </span>
        </span>
      )}
    </FieldFrame>
  );
}

/** One of a list that is too long for radios. */
export function Select<V extends string>({
  label,
  error,
  hint,
  optional,
  value,
  onChange,
  choices,
}: FieldProps & {
  value: V;
  onChange: (value: V) => void;
  choices: readonly { value: V; label: string }[];
}) {
  return (
    <FieldFrame {...{ label, error, hint, optional }}>
      {(wired) => (
        <select {...wired} value={value} onChange={(event) => onChange(event.target.value as V)}>
          {choices.map((choice) => (
            <option key={choice.value} value={choice.value}>
              {choice.label}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  );
}
