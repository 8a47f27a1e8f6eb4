import type { OpeningStep, RibbonFacts } from "./facts.ts";
import type { Layout } from "./layout.ts";
import type { Window } from "./window.ts";

/** Openings cut, as dashed steps; the one in use carries its size. */
export function OpeningLine({
  facts,
  window,
  layout,
}: {
  facts: RibbonFacts;
  window: Window;
  layout: Layout;
}) {
  const { x, y } = layout;
  const shown = facts.openings.flatMap((opening) => {
    const fromDay = Math.max(window.fromDay, opening.fromDay);
    const toDay = Math.min(window.toDay, opening.toDay ?? facts.nowDay);
    return fromDay <= toDay ? [{ ...opening, fromDay, toDay }] : [];
  });
  if (shown.length === 0) return null;
  let line = "";
  for (const { fromDay, toDay, mm } of shown) {
    line += `${line ? "L" : "M"}${x(fromDay).toFixed(1)} ${y(mm).toFixed(1)}H${x(toDay).toFixed(1)}`;
  }
  const inUse = shown.find(({ entryId }) => entryId === facts.openings.at(-1)?.entryId);
  return (
    <g>
      <path d={line} fill="none" stroke="var(--ink)" strokeWidth={1.75} strokeDasharray="6 4" />
      {inUse && <InUse opening={inUse} layout={layout} />}
    </g>
  );
}

function InUse({ opening: { fromDay, mm }, layout }: { opening: OpeningStep; layout: Layout }) {
  const { x, y, text, narrow, right } = layout;
  const words = narrow ? `in use ${mm.toFixed(1)}` : `opening in use, ${mm.toFixed(1)}`;
  const place = x(fromDay) + 4;
  const before = place + words.length * 7 * text > right;
  return (
    <text
      x={before ? right : place}
      y={y(mm) - 8 * text}
      fontSize={13 * text}
      textAnchor={before ? "end" : "start"}
      className="over"
    >
      {words}
    </text>
  );
}
