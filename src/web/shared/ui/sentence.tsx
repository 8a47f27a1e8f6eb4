import { Fragment } from "react";

/** A sentence with its figures in bold: "leaves up to **5.3 mm** of skin bare". */
export function Sentence({ text }: { text: string }) {
  return splitFigures(text).map(({ part, figure, at }) =>
    figure ? (
      <b key={at} className="nb">
        {part}
      </b>
    ) : (
      <Fragment key={at}>{part}</Fragment>
    ),
  );
}

const month = "(?:January|February|March|April|May|June|July|August|September|October|November|December)";
const date = `\\d{1,2} ${month}(?: \\d{4})?`;
const number = "\\d[\\d,]*(?:\\.\\d+)?(?<!,)";
const unit =
  "(?:mm²|mm|%|days?|hours?|o’clock|unplanned changes|wears?|changes?|readings?|leaks?|lines?)(?![A-Za-z])";
/** "day 44, 12 December", "12 December", "1.6, 1.9 days", "3.5 mm" */
const figures = new RegExp(
  `day ${number}(?:, ${date})?|${date}|${number}(?:(?:, | to | by | and )${number})*(?:\\s${unit})?`,
  "g",
);

/** Parts of a sentence, figures (with the unit that follows) apart from words. */
export function splitFigures(text: string): { part: string; figure: boolean; at: number }[] {
  const parts: { part: string; figure: boolean; at: number }[] = [];
  let from = 0;
  for (const match of text.matchAll(figures)) {
    if (match.index > from) parts.push({ part: text.slice(from, match.index), figure: false, at: from });
    parts.push({ part: match[0], figure: true, at: match.index });
    from = match.index + match[0].length;
  }
  if (from < text.length) parts.push({ part: text.slice(from), figure: false, at: from });
  return parts;
}
