import type { ReactNode } from "react";

export interface Footnote {
  letter: string;
  words: ReactNode;
}

/** Corrections and where figures come from, under the thing they belong to. */
export function Footnotes({ label, notes }: { label: string; notes: readonly Footnote[] }) {
  if (notes.length === 0) return null;
  return (
    <ol className="footnotes" aria-label={label}>
      {notes.map(({ letter, words }) => (
        <li key={letter} id={`footnote-${letter}`}>
          <b>{letter}</b>
          <span>{words}</span>
        </li>
      ))}
    </ol>
  );
}

/** The letter of a footnote, at the figure or the sentence it belongs to. */
export function FootnoteMark({ letter }: { letter: string }) {
  return (
    <sup>
      <a href={`#footnote-${letter}`} aria-label={`footnote ${letter}`}>
        {letter}
      </a>
    </sup>
  );
}

/** a, b, … z, aa, ab, … */
export function footnoteLetter(index: number): string {
  const last = String.fromCharCode(97 + (index % 26));
  return index < 26 ? last : footnoteLetter(Math.floor(index / 26) - 1) + last;
}
