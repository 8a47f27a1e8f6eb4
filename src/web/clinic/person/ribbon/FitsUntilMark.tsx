import { addDays } from "../../../../domain/calendar.ts";
import type { FitsUntil } from "../../../../domain/healing/index.ts";
import { shortDay } from "../../../shared/words/index.ts";
import type { RibbonFacts } from "./facts.ts";
import type { Layout } from "./layout.ts";
import type { Window } from "./window.ts";

/** The day on which the opening in use stops fitting: a pointer on a bracket that spans its range, with words. */
export function FitsUntilMark({
  fits,
  facts,
  window,
  layout,
}: {
  fits: FitsUntil | null;
  facts: RibbonFacts;
  window: Window;
  layout: Layout;
}) {
  const opening = facts.openings.at(-1);
  if (!fits || fits.estimate === null || !opening) return null;
  const { x, y, text } = layout;
  const clamp = (day: number) => Math.min(window.toDay, Math.max(window.fromDay, day));
  const [from, at, to] = [fits.lower80 ?? fits.estimate, fits.estimate, fits.upper80 ?? window.toDay].map(
    clamp,
  ) as [number, number, number];
  if (fits.estimate < window.fromDay || fits.estimate > window.toDay) return null;
  const level = y(opening.mm) + 15 * text;
  return (
    <g>
      <line x1={x(from)} x2={x(to)} y1={level} y2={level} stroke="var(--ink)" strokeWidth={1.5} />
      <path
        d={`M${x(from)} ${level - 4}v8${fits.upper80 === null ? "" : `M${x(to)} ${level - 4}v8`}`}
        stroke="var(--ink)"
        strokeWidth={1.5}
      />
      <path d={`M${x(at) - 5} ${level - 5}h10l-5 9z`} fill="var(--ink)" />
      <Words fits={fits} facts={facts} layout={layout} level={level} ends={[x(from), x(to)]} />
    </g>
  );
}

function Words({
  fits,
  facts,
  layout,
  level,
  ends: [from, to],
}: {
  fits: FitsUntil;
  facts: RibbonFacts;
  layout: Layout;
  level: number;
  ends: readonly [number, number];
}) {
  const { text, width, x } = layout;
  const day = (value: number) =>
    facts.surgeryKnown ? String(Math.floor(value)) : shortDay(addDays(facts.clockStartOn, Math.floor(value)));
  const head = `fits until ${facts.surgeryKnown ? "day " : ""}${day(fits.estimate!)}`;
  const range =
    fits.lower80 === null
      ? null
      : fits.upper80 === null
        ? `likely ${day(fits.lower80)} or later`
        : `likely ${day(fits.lower80)} to ${day(fits.upper80)}`;
  const today = x(facts.nowDay);
  const start = Math.max(to + 8, today > from && today < to + 60 ? today + 8 : 0);
  const fitsAfter = start + 125 * text < width;
  const place = fitsAfter ? start : from - 8;
  return (
    <g textAnchor={fitsAfter ? "start" : "end"}>
      <text x={place} y={level - 2 * text} fontSize={13 * text} fontWeight={700} className="over">
        {head}
      </text>
      {range && (
        <text x={place} y={level + 13 * text} fontSize={13 * text} className="c2 over">
          {range}
        </text>
      )}
    </g>
  );
}
