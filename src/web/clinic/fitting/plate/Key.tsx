import { useId } from "react";
import { HatchPattern } from "./Hatching.tsx";
import { Unspoken } from "./Unspoken.tsx";

export type KeyLine = "stoma" | "before" | "raw" | "inUse" | "proposed" | "bare";

const classes: Record<Exclude<KeyLine, "bare">, string> = {
  stoma: "fit-stoma-line",
  before: "fit-stoma-before",
  raw: "fit-stoma-raw",
  inUse: "fit-in-use",
  proposed: "fit-proposed",
};

/** What each line of the plate is: the one drawing of the bench whose lines cannot carry their names. */
export function Key({ lines }: { lines: readonly { line: KeyLine; words: string }[] }) {
  return (
    <ul className="fit-key" aria-label="Lines on the plate">
      {lines.map(({ line, words }) => (
        <li key={line + words}>
          {line === "bare" ? <BareSample /> : <LineSample className={classes[line]} />}
          {words}
        </li>
      ))}
    </ul>
  );
}

function LineSample({ className }: { className: string }) {
  return (
    <svg width="30" height="10" role="presentation">
      <Unspoken>
        <path className={className} d="M0 5H30" />
      </Unspoken>
    </svg>
  );
}

function BareSample() {
  const id = useId();
  return (
    <svg width="30" height="13" role="presentation">
      <Unspoken>
        <HatchPattern id={id} widthPx={2} />
        <rect width="30" height="13" fill={`url(#${id})`} />
      </Unspoken>
    </svg>
  );
}
