import { useId } from "react";
import "./field.css";

/** One of a few: real radios, bold with a double edge when chosen. */
export function Choice<V extends string>({
  label,
  value,
  onChange,
  choices,
  error,
  stacked,
}: {
  label: string;
  /** "" while nothing is chosen. */
  value: V | "";
  onChange: (value: V) => void;
  choices: readonly { value: V; label: string }[];
  error?: string;
  stacked?: boolean;
}) {
  const id = useId();
  return (
    <div
      className={stacked ? "choice stacked" : "choice"}
      role="radiogroup"
      aria-labelledby={`${id}-label`}
      aria-invalid={error ? true : undefined}
      aria-describedby={error ? `${id}-error` : undefined}
    >
      <p className="legend" id={`${id}-label`}>
        {label}
      </p>
      <div className="row">
        {choices.map((choice) => (
          <label key={choice.value}>
            <input
              type="radio"
              name={id}
              value={choice.value}
              checked={choice.value === value}
              onChange={() => onChange(choice.value)}
            />
            {choice.label}
          </label>
        ))}
      </div>
      {error && (
        <p className="wrong" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}

/** Any of a few, or none. */
export function Checks<V extends string>({
  label,
  chosen,
  onChange,
  choices,
  error,
}: {
  label: string;
  chosen: readonly V[];
  /** In the order of the choices. */
  onChange: (chosen: V[]) => void;
  choices: readonly { value: V; label: string }[];
  error?: string;
}) {
  const id = useId();
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would draw a box that the forms do without
    <div
      className="choice stacked"
      role="group"
      aria-labelledby={`${id}-label`}
      aria-describedby={error ? `${id}-error` : undefined}
    >
      <p className="legend" id={`${id}-label`}>
        {label}
      </p>
      {choices.map(({ value, label: words }) => (
        <Check
          key={value}
          label={words}
          checked={chosen.includes(value)}
          onChange={(on) =>
            onChange(
              choices.map((one) => one.value).filter((one) => (one === value ? on : chosen.includes(one))),
            )
          }
        />
      ))}
      {error && (
        <p className="wrong" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}

/** Yes or no. */
export function Check({
  label,
  checked,
  onChange,
}: {
  label: string;
  checked: boolean;
  onChange: (checked: boolean) => void;
}) {
  return (
    <label className="check">
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.target.checked)} />
      {label}
    </label>
  );
}
