import { useId } from "react";
import { NumberField } from "../../../shared/ui/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";

/** Which way an oval leans: by eye with the slider, or as a figure. */
export function TiltField({ value, onChange }: { value: string; onChange: (tiltDeg: string) => void }) {
  const id = useId();
  const tilt = readDecimal(value) ?? 0;
  return (
    <div className="fit-tilt">
      <NumberField
        label="Tilt"
        unit="°"
        value={value}
        onChange={onChange}
        error={Math.abs(tilt) > 180 ? "A tilt lies between −180 and 180 degrees." : undefined}
      />
      <div className="field">
        <label htmlFor={id}>Leans to the person’s right or left</label>
        <input
          id={id}
          type="range"
          min={-90}
          max={90}
          step={1}
          value={Math.max(-90, Math.min(90, tilt))}
          onChange={(event) => onChange(event.target.value)}
          aria-valuetext={tiltWords(tilt)}
        />
      </div>
    </div>
  );
}

function tiltWords(tilt: number): string {
  if (tilt === 0) return "upright";
  return `${Math.abs(tilt)} degrees to the person’s ${tilt > 0 ? "left" : "right"}`;
}
