import { useState } from "react";
import { NumberField } from "../../../shared/ui/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";

const mostDeg = 360;

/** An angle that takes effect while it is typed; half-written text stays the writer's. */
export function AngleField({
  label,
  value,
  onChange,
}: {
  label: string;
  value: number;
  onChange: (deg: number) => void;
}) {
  const [typed, setTyped] = useState<string | null>(null);
  const shown = String(Math.round(value * 10) / 10);
  return (
    <NumberField
      label={label}
      unit="°"
      value={typed ?? shown}
      onFocus={() => setTyped(shown)}
      onBlur={() => setTyped(null)}
      onChange={(text) => {
        setTyped(text);
        const deg = text.trim() === "" ? 0 : readDecimal(text);
        if (deg !== null && Math.abs(deg) <= mostDeg) onChange(deg);
      }}
    />
  );
}

/** The next quarter turn, above −180° and up to 180°. */
export function quarterOn(turnDeg: number): number {
  const turned = turnDeg + 90;
  return turned > 180 ? turned - 360 : turned;
}
