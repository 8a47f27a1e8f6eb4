import { useState } from "react";
import { NumberField } from "../../../shared/ui/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";
import { type Handle, handleRangeMm, hourWords } from "../handles/index.ts";

/** The edge as figures: what the handles do, for whoever would rather type. */
export function RadiiTable({
  handles,
  onMove,
}: {
  handles: readonly Handle[];
  onMove: (hour: number, radiusMm: number, gesture: string) => void;
}) {
  return (
    <details className="fit-radii">
      <summary>The edge as figures, by the clock</summary>
      <p className="note">
        Millimetres from the centre to the edge of the stoma. 12 o’clock is toward the head, 3 at the person’s
        left.
      </p>
      <div className="fit-radii-fields">
        {handles.map((handle) => (
          <RadiusField key={handle.hour} handle={handle} onMove={onMove} />
        ))}
      </div>
    </details>
  );
}

function RadiusField({
  handle: { hour, radiusMm },
  onMove,
}: {
  handle: Handle;
  onMove: (hour: number, radiusMm: number, gesture: string) => void;
}) {
  // While it is being typed the text is the writer's; the outline may not follow every half-written figure.
  const [typed, setTyped] = useState<string | null>(null);
  const wrong = typed !== null && readRadius(typed) === null;
  return (
    <NumberField
      label={capital(hourWords(hour))}
      unit="mm"
      value={typed ?? radiusMm.toFixed(1)}
      onFocus={() => setTyped(radiusMm.toFixed(1))}
      onBlur={() => setTyped(null)}
      onChange={(text) => {
        setTyped(text);
        const value = readRadius(text);
        if (value !== null) onMove(hour, value, `typed.${hour}`);
      }}
      error={wrong ? `${handleRangeMm.least} to ${handleRangeMm.most} mm.` : undefined}
    />
  );
}

function readRadius(text: string): number | null {
  const value = readDecimal(text);
  return value !== null && value >= handleRangeMm.least && value <= handleRangeMm.most ? value : null;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
