import { type KeyboardEvent, useId, useState } from "react";
import "./clockFace.css";

const hours = Array.from({ length: 12 }, (_, index) => index + 1);

/**
 * Clock hours round the stoma, picked by finger or with the arrow keys and the space bar: 12 toward the head,
 * 3 at the person's left.
 */
export function ClockFace({
  label,
  chosen,
  onChange,
}: {
  label: string;
  chosen: readonly number[];
  onChange: (hours: number[]) => void;
}) {
  const id = useId();
  const [stop, setStop] = useState(12);
  const toggle = (hour: number) =>
    onChange(chosen.includes(hour) ? chosen.filter((other) => other !== hour) : [...chosen, hour]);
  const onKey = (event: KeyboardEvent<HTMLElement>) => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next = ((stop - 1 + step + 12) % 12) + 1;
    setStop(next);
    event.currentTarget.querySelector<HTMLElement>(`[data-hour="${next}"]`)?.focus();
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot take the place of a positioned face
    <div role="group" aria-labelledby={id} className="clockface" onKeyDown={onKey}>
      <p id={id} className="clockface-label">
        {label}
      </p>
      <div className="clockface-face">
        <FaceDrawing chosen={chosen} />
        {hours.map((hour) => (
          <button
            key={hour}
            type="button"
            data-hour={hour}
            className={`at-${hour}`}
            aria-pressed={chosen.includes(hour)}
            aria-label={`${hour} o’clock`}
            tabIndex={hour === stop ? 0 : -1}
            onFocus={() => setStop(hour)}
            onClick={() => toggle(hour)}
          >
            {hour}
          </button>
        ))}
      </div>
      <p className="note" role="status">
        {hoursWords(chosen)}
      </p>
    </div>
  );
}

/** "at 3, 4 and 5 o’clock" */
export function hoursWords(chosen: readonly number[]): string {
  if (chosen.length === 0) return "no hour chosen";
  const sorted = [...chosen].sort((a, b) => a - b).map(String);
  const last = sorted.pop();
  return `at ${sorted.length > 0 ? `${sorted.join(", ")} and ` : ""}${last} o’clock`;
}

/** The head arrow, the person's sides, the stoma, and a wedge for each chosen hour. */
function FaceDrawing({ chosen }: { chosen: readonly number[] }) {
  return (
    <svg viewBox="-130 -140 260 270" aria-hidden="true">
      <path d="M-7 -120l7 -12l7 12z" fill="var(--ink)" />
      <text x={12} y={-121} fontSize={13} fontWeight={700}>
        head
      </text>
      <circle r={62} fill="none" stroke="var(--ink-3)" />
      {chosen.map((hour) => (
        <path key={hour} d={wedge(hour)} fill="var(--ink)" />
      ))}
      <circle r={26} fill="var(--stoma-wash)" stroke="var(--stoma)" strokeWidth={2.5} />
      <text x={-124} y={122} fontSize={13} className="c2">
        person’s right
      </text>
      <text x={124} y={122} fontSize={13} className="c2" textAnchor="end">
        person’s left
      </text>
    </svg>
  );
}

function wedge(hour: number): string {
  const at = (radius: number, half: number) => {
    const turn = ((hour * 30 + half) * Math.PI) / 180;
    return `${(radius * Math.sin(turn)).toFixed(1)} ${(-radius * Math.cos(turn)).toFixed(1)}`;
  };
  return `M${at(34, -15)}L${at(62, -15)}A62 62 0 0 1 ${at(62, 15)}L${at(34, 15)}A34 34 0 0 0 ${at(34, -15)}Z`;
}
