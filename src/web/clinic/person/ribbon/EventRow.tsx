import type { RibbonFacts } from "./facts.ts";
import type { Layout } from "./layout.ts";
import type { Window } from "./window.ts";

/** Changes as strokes, early ones with a bar on top; leaks as crosses in a row of their own. */
export function EventRow({
  facts,
  window,
  layout,
  leaksWindowDays,
}: {
  facts: RibbonFacts;
  window: Window;
  layout: Layout;
  leaksWindowDays: number;
}) {
  const shown = facts.changes.filter(({ day }) => day >= window.fromDay && day <= window.toDay);
  const { x, changes: top, leaks: low, text } = layout;
  return (
    <g stroke="var(--ink)" fill="none">
      <Heads layout={layout} />
      {shown.map(({ entryId, day, barrier, early, leak }) => (
        <g key={entryId}>
          <path
            d={
              early
                ? `M${x(day) - 4.5} ${top - 8}h9M${x(day)} ${top - 8}v16`
                : `M${x(day)} ${top - (barrier ? 8 : 3)}v${barrier ? 16 : 6}`
            }
            strokeWidth={barrier ? 2.5 : 1.5}
          />
          {leak && <path d={`M${x(day) - 4.5} ${low - 4.5}l9 9m0 -9l-9 9`} strokeWidth={2.25} />}
        </g>
      ))}
      <Words facts={facts} layout={layout} shown={shown} leaksWindowDays={leaksWindowDays} text={text} />
    </g>
  );
}

function Heads({ layout: { changes, leaks, text, narrow } }: { layout: Layout }) {
  if (narrow) {
    return (
      <text
        x={0}
        y={changes - 18 * text}
        fontSize={13 * text}
        fontWeight={700}
        stroke="none"
        fill="var(--ink)"
      >
        Changes and leaks
      </text>
    );
  }
  return (
    <g fontSize={15 * text} fontWeight={700} stroke="none" fill="var(--ink)">
      <text x={0} y={changes + 5 * text}>
        Changes
      </text>
      <text x={0} y={leaks + 5 * text}>
        Leaks
      </text>
    </g>
  );
}

/** What the marks mean, to the right of today where there is room. */
function Words({
  facts,
  layout: { x, changes, leaks, width, narrow },
  shown,
  leaksWindowDays,
  text,
}: {
  facts: RibbonFacts;
  layout: Layout;
  shown: RibbonFacts["changes"];
  leaksWindowDays: number;
  text: number;
}) {
  const place = x(facts.nowDay) + 12;
  const room = width - place;
  const recent = facts.changes.filter(({ day, leak }) => leak && day > facts.nowDay - leaksWindowDays).length;
  const early = narrow ? "bar on top: early" : "bar on top: earlier than planned";
  return (
    <g fontSize={13 * text} stroke="none" className="c2">
      {shown.some((change) => change.early) && room > early.length * 6.6 * text && (
        <text x={place} y={changes + 5 * text} className="c2 over">
          {early}
        </text>
      )}
      {recent > 0 && room > 140 * text && (
        <text x={place} y={leaks + 5 * text} className="c2 over">
          {recent} in the last {leaksWindowDays} days
        </text>
      )}
    </g>
  );
}
